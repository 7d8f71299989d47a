using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Safeguards;

/// <summary>What a kind of finding needs, level by level of the hierarchy of controls (NIOSH; ISO 45001, 8.1.2), best level first.</summary>
/// <param name="Code">A finding's code or its beginning.</param>
/// <param name="From">Severity from which it is needed.</param>
public sealed record ControlNeed(string Code, Severity From)
{
    /// <summary>Changes of the procedure that remove the hazard, in words.</summary>
    public IReadOnlyList<string> Eliminate { get; init; } = [];

    /// <summary>Changes that put something less hazardous in its place, in words.</summary>
    public IReadOnlyList<string> Substitute { get; init; } = [];

    /// <summary>Controls of <see cref="ControlList"/>.</summary>
    public IReadOnlyList<string> Engineering { get; init; } = [];

    public IReadOnlyList<string> Administrative { get; init; } = [];

    public IReadOnlyList<string> ProtectiveEquipment { get; init; } = [];

    /// <summary>Why no control answers it; null where one does.</summary>
    public string? Reason { get; init; }

    /// <summary>The controls of the three lower levels, best level first.</summary>
    public IReadOnlyList<string> Controls => field ??= [.. Engineering, .. Administrative, .. ProtectiveEquipment];
}

/// <summary>The controls a finding needs, and whether the plan has them (Data/control-needs.tsv).</summary>
public static class ControlNeeds
{
    /// <summary>An addition counts as slow from ten minutes. Common practice, no source.</summary>
    internal const double DosedFromS = 600;

    /// <summary>What a stored energy asks for that a blast shield in front does not hold.</summary>
    internal const string FixedShield = "fixed shield or cell";

    internal const string EngineeredCell = "engineered cell";

    private const string BlastShield = "blast shield";

    private static readonly ControlNeed[] Needs =
    [
        .. EmbeddedTable.Rows("control-needs.tsv")
            .Select(static row => new ControlNeed(row["code"], Enum.Parse<Severity>(row["from"], ignoreCase: true))
            {
                Eliminate = EmbeddedTable.Entries(row["eliminate"]),
                Substitute = EmbeddedTable.Entries(row["substitute"]),
                Engineering = EmbeddedTable.Entries(row["engineering"]),
                Administrative = EmbeddedTable.Entries(row["administrative"]),
                ProtectiveEquipment = EmbeddedTable.Entries(row["protective"]),
                Reason = row["reason"].Length == 0 ? null : row["reason"],
            })
            .OrderByDescending(static need => need.Code.Length)
            .ThenBy(static need => need.Code, StringComparer.Ordinal),
    ];

    /// <summary>Every row of the table, the longest code first.</summary>
    public static IReadOnlyList<ControlNeed> All => Needs;

    /// <summary>What a finding of this code needs; null for a code nobody has judged.</summary>
    public static ControlNeed? Of(string code)
    {
        foreach (var need in Needs)
        {
            if (code.StartsWith(need.Code, StringComparison.Ordinal))
            {
                return need;
            }
        }

        return null;
    }

    internal static Finding Attach(Finding finding, ScreeningContext context)
    {
        if (finding.Controls.Count > 0 || Of(finding.Code) is not { } need || finding.Severity > need.From)
        {
            return finding;
        }

        if (need.Controls.Count == 0)
        {
            return finding;
        }

        // what a waste bottle holds is not dosed
        var needed = finding is { Hazard: Hazard.Incompatibility, Steps.Count: 0 } ? [.. need.Controls.Where(static control => control is not "slow addition")] : need.Controls;
        var controls = new NeededControl[needed.Count];
        for (var index = 0; index < controls.Length; index++)
        {
            controls[index] = new NeededControl(needed[index], Status(needed[index], finding, context));
        }

        return finding with { Controls = controls };
    }

    internal static bool Covers(Safeguard safeguard, Finding finding) =>
        safeguard.Steps.Count == 0 || finding.Steps.Count == 0 || Share(safeguard.Steps, finding.Steps);

    private static bool Share(IReadOnlyList<string> steps, IReadOnlyList<string> others)
    {
        for (var index = 0; index < steps.Count; index++)
        {
            if (others.Contains(steps[index], StringComparer.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Whether the plan states a control for the steps of a finding.</summary>
    internal static ControlStatus Status(string control, Finding finding, ScreeningContext context)
    {
        if (BuiltIn(control, finding, context.Plan) || (control is InertGas && IsUnderInertGas(finding, context)))
        {
            return ControlStatus.Present;
        }

        var improvised = false;
        for (var index = 0; index < context.Safeguards.Count; index++)
        {
            var judged = context.Safeguards[index];
            if (!Covers(judged.Safeguard, finding))
            {
                continue;
            }

            if (string.Equals(judged.Control, control, StringComparison.Ordinal) || HoldsMore(judged.Control, control))
            {
                return ControlStatus.Present;
            }

            improvised |= judged.StandsInFor.Contains(control, StringComparer.Ordinal);
        }

        return improvised ? ControlStatus.Improvised : ControlStatus.Missing;
    }

    private const string InertGas = "inert gas";

    private const string Lithium = "7439-93-2";

    /// <summary>True when every vessel of the finding stands under a gas that does not react with it in all of its steps, as the steps state; nitrogen is none for lithium.</summary>
    private static bool IsUnderInertGas(Finding finding, ScreeningContext context)
    {
        var any = false;
        foreach (var state in context.Walk.States)
        {
            if (!finding.Steps.Contains(state.Step.Id, StringComparer.Ordinal) || (finding.Vessel is { } vessel && !string.Equals(vessel, state.Vessel.Id, StringComparison.Ordinal)))
            {
                continue;
            }

            if (state.Headspace is not Headspace.Gas { Substance: var gas } || !FamilyTable.Default.Of(gas).Contains("inert gases", StringComparer.Ordinal)
                || (string.Equals(gas.Key, StandardGases.Nitrogen.Key, StringComparison.Ordinal) && HoldsLithium(state)))
            {
                return false;
            }

            any = true;
        }

        return any;
    }

    private static bool HoldsLithium(StepState state)
    {
        foreach (var content in state.Contents)
        {
            if (string.Equals(content.Substance.Key, Lithium, StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>A cell holds what a shield holds; never the other way round.</summary>
    private static bool HoldsMore(string? stated, string needed) => stated switch
    {
        EngineeredCell => needed is FixedShield or BlastShield,
        FixedShield => needed is BlastShield,
        _ => false,
    };

    /// <summary>Controls the plan states elsewhere than among its safeguards.</summary>
    private static bool BuiltIn(string control, Finding finding, Plan plan) => control switch
    {
        "fume hood" => plan.Place?.Kind is PlaceKind.Hood or PlaceKind.HoodWithScrubber,
        "scrubber" => plan.Place?.Kind is PlaceKind.HoodWithScrubber,
        "independent cut-out" => AnyStep(plan, finding, static step => step.IndependentCutOut),
        "flame-resistant coat" => plan.Protection?.Coat is { } coat && string.Equals(ControlList.Find(coat) ?? (coat.Contains("flame-resistant", StringComparison.OrdinalIgnoreCase) ? control : null), control, StringComparison.Ordinal),
        "face shield" => plan.Protection?.Eyes?.Contains(control, StringComparison.OrdinalIgnoreCase) == true,
        "slow addition" => AnyStep(plan, finding, static step => step.OverS >= DosedFromS),
        _ => false,
    };
    private static bool AnyStep(Plan plan, Finding finding, Func<Step, bool> has)
    {
        for (var index = 0; index < plan.Steps.Count; index++)
        {
            if (has(plan.Steps[index]) && finding.Steps.Contains(plan.Steps[index].Id, StringComparer.Ordinal))
            {
                return true;
            }
        }

        return false;
    }
}
