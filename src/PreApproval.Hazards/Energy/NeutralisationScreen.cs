using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Safeguards;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>
/// An acid and an alkali hydroxide that come together and that no declared reaction names: the heat of what neutralises in the step, against what shares the vessel. Where a declared reaction takes one of them
/// up, <see cref="ReactionHeatScreen"/> has it. Method: docs/methods/heats.md.
/// </summary>
public sealed class NeutralisationScreen : IScreen
{
    /// <summary>H⁺ + OH⁻ → H2O in dilute water at 25 °C, in J/mol (CRC Handbook: −285.8 less −230.0 kJ/mol). Carboxylic and sulfonic acids differ by 2 kJ/mol at most, which is left out.</summary>
    internal const double HeatJPerMol = -55_800;

    /// <summary>Sulfuric acid in much water, in J/mol (CRC Handbook: −909.3 less −814.0 kJ/mol); counted for acid of nine tenths and more.</summary>
    internal const double SulfuricDilutionJPerMol = -95_300;

    /// <summary>Rise in K below which nothing is said. As for a declared reaction.</summary>
    private const double MediumK = 50;

    /// <summary>Heat in J from which boiling over is more than a splash: 5 kJ boil 2 g of water off (2.26 kJ/g). Common practice, no source.</summary>
    private const double SplashJ = 5_000;

    /// <summary>Heat capacity in J/(kg K) of what has none on file: strong acids and dissolved salts, 1.0 to 2.0 kJ/(kg K). Common practice, no source.</summary>
    private const double OtherJPerKgK = 1500;

    private const double Concentrated = 0.9;

    private const string SulfuricAcid = "7664-93-9";

    /// <summary>Solid hydroxides and their heat of solution in J/mol (CRC Handbook, from memory).</summary>
    private static readonly Dictionary<string, double> SolutionJPerMol = new(StringComparer.Ordinal) { ["1310-73-2"] = -44_500, ["1310-58-3"] = -57_600 };

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        var before = new Dictionary<string, IReadOnlyList<Content>>(StringComparer.Ordinal);
        foreach (var state in context.Walk.States)
        {
            var earlier = before.GetValueOrDefault(state.Vessel.Id, []);
            before[state.Vessel.Id] = state.ContentsAfter;
            if (Meeting(state) is not { } met)
            {
                continue;
            }

            if (Neutralised(state, earlier, met) is { } heat)
            {
                foreach (var finding in Of(state, heat, context))
                {
                    yield return finding;
                }
            }

            if (NeutralisationGap.Of(state, met, context) is { } gap && !IsHarmlessAtMost(state, earlier, met, context))
            {
                yield return gap;
            }
        }
    }

    /// <summary>True where one side is known and so little that all of it, with what is known of the contents to warm, gives no finding.</summary>
    private bool IsHarmlessAtMost(StepState state, IReadOnlyList<Content> earlier, AcidWithBase met, ScreeningContext context)
    {
        // of an unknown amount the heat of dissolution has no bound either
        var unknown = met.Acids.Unknown.Concat(met.Bases.Unknown).ToArray();
        if (met.AtMostMol is not { } most || Array.Exists(unknown, static content => DissolutionJPerMol(content) is not null))
        {
            return false;
        }

        var neutral = new Neutralisation(most, HeatJ(state, earlier, met, most).Joule, "", "", []);
        return !Of(state, neutral, context).Any();
    }

    private IEnumerable<Finding> Of(StepState state, Neutralisation neutral, ScreeningContext context)
    {
        var heat = Rise(state, neutral);
        var basis = new HeatBasis(neutral.Model, " (heat of neutralisation)", Quality.Estimated, ["crc-enthalpies"]);
        if (!(state.Step.OverS >= ControlNeeds.DosedFromS) && AtOnce(state, neutral, heat, context) is { } finding)
        {
            yield return finding;
        }
        else if (DosingScreen.Of(this, state, heat, basis, context) is { } dosing)
        {
            yield return dosing;
        }
    }

    /// <summary>Of everything in the vessel; what has no heat capacity on file counts with that of an acid or a salt.</summary>
    private static ReactionHeat Rise(StepState state, Neutralisation neutral)
    {
        double capacity = 0;
        var sources = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var content in state.Contents)
        {
            if (content is { Mol: > 0 and var mol, Substance.Known: { } known })
            {
                var molar = known.PhaseAt298K == Phase.Liquid ? LiquidHeatCapacity.JPerMolK(known, state.TemperatureK) : null;
                sources.UnionWith(molar?.Sources ?? []);
                capacity += mol * (molar?.Value ?? (known.Identity.MolarMassKgPerMol ?? 0) * OtherJPerKgK);
            }
        }

        var rise = neutral.Joule / capacity;
        return new ReactionHeat(neutral.Joule, capacity, rise, 1, AccumulationDeclared: false, state.TemperatureK + rise, [], null, Quality.Assumed, [.. sources]);
    }

    private Finding? AtOnce(StepState state, Neutralisation neutral, ReactionHeat heat, ScreeningContext context)
    {
        var rise = heat.AdiabaticRiseK!.Value;
        var reached = heat.MtsrK!.Value;
        var boilsK = RunawayAssessment.Of(state with { Closing = null }, heat, context).BoilsK;
        var boils = boilsK < reached;
        if (!boils && rise < MediumK)
        {
            return null;
        }

        var finding = new Finding
        {
            Code = "heat.neutralisation",
            Hazard = Hazard.Heat,
            // at the boiling point the contents leave the vessel, or burst it
            Severity = boils && neutral.Joule >= SplashJ ? state.Sealed ? Severity.Danger : Severity.Warning : Severity.Caution,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Materials = neutral.Materials,
            Statement = $"Step {state.Step.Id} brings {neutral.Names} together {(state.Step.OverS is > 0 and var over ? $"within {Wording.Figures(over / 60)} min" : "at once, for no time is stated")}: {Wording.Figures(neutral.Joule / 1000)} kJ heat “{state.Vessel.Id}” by up to {Wording.Figures(rise)} K, "
                + (boils ? $"past boiling at {Wording.Celsius(boilsK!.Value)}{(state.Sealed ? " in a closed vessel" : "; it boils over")}" : $"to {Wording.Celsius(reached)}") + ": dilute and cool one, and dose the other into it.",
            Evidence =
            [
                Findings.Number("adiabatic rise", rise, "K", MediumK, $"{neutral.Model} over the heat capacity of the contents; {Wording.Figures(OtherJPerKgK / 1000)} kJ/(kg K) for what has none on file", Quality.Estimated, [.. heat.Sources, "crc-enthalpies", "common-practice"]),
                Findings.Number("temperature reached without cooling", Wording.InCelsius(reached), "°C", boils ? Wording.InCelsius(boilsK!.Value) : null, "temperature of the step plus the adiabatic rise", Quality.Estimated, "stoessel"),
            ],
        };
        return context.IsTrial || state.Sealed || state.Step.Materials.Count == 0
            ? finding
            : finding with { ClearedBy = Findings.Tried(this, finding, context, new Clearing("time of addition", Findings.Step(state.Index, "over"), ControlNeeds.DosedFromS / 60, "min", null)) };
    }

    /// <summary>Acid and base that share the vessel; null when one of them is missing or a declared reaction has them.</summary>
    private static AcidWithBase? Meeting(StepState state)
    {
        if (state.Contents.Count < 2 || AcidWithBase.In(state.Contents) is not { } met)
        {
            return null;
        }

        return state.Reactions.Count > 0 && IsTaken(state, met) ? null : met;
    }

    private static bool IsTaken(StepState state, AcidWithBase met)
    {
        var taken = state.Reactions.SelectMany(static reaction => reaction.Consumes).Select(static one => one.MaterialId).ToHashSet(StringComparer.Ordinal);
        return met.Everyone.Any(content => content.MaterialId is { } id && taken.Contains(id));
    }

    /// <summary>What neutralises in this step: what can, less what could already before it. Null when nothing of known amount does.</summary>
    private static Neutralisation? Neutralised(StepState state, IReadOnlyList<Content> earlier, AcidWithBase met)
    {
        var (acids, bases) = (met.Acids, met.Bases);
        if (acids.Known.Length == 0 || bases.Known.Length == 0)
        {
            return null;
        }

        var mol = Math.Min(acids.Mol, bases.Mol) - (AcidWithBase.In(earlier) is { } before ? Math.Min(before.Acids.Mol, before.Bases.Mol) : 0);
        if (mol <= 0)
        {
            return null;
        }

        var (joule, model) = HeatJ(state, earlier, met, mol);
        return new Neutralisation(mol, joule, $"{acids.Known[0].Substance.Name} and {bases.Known[0].Substance.Name}", model, Findings.Ids(acids.Known.Concat(bases.Known)));
    }

    private static (double Joule, string Model) HeatJ(StepState state, IReadOnlyList<Content> earlier, AcidWithBase met, double mol)
    {
        var joule = -HeatJPerMol * mol;
        // water poured onto the neat partner heats it as much as the other way round
        var neat = Math.Max(met.Acids.Mol, met.Bases.Mol);
        var meetsWater = WaterMol(earlier) < neat && WaterMol(state.Contents) >= neat;
        var model = "56 kJ for each mol of acid and hydroxide";
        foreach (var content in met.Acids.Known.Concat(met.Bases.Known).Where(content => meetsWater || (content.MaterialId is { } id && state.Additions.Any(added => string.Equals(added.MaterialId, id, StringComparison.Ordinal)))))
        {
            if (DissolutionJPerMol(content) is { } dissolution)
            {
                joule -= dissolution * content.Mol!.Value;
                model += content.Substance.Key is SulfuricAcid ? ", and the dilution of concentrated sulfuric acid" : $", and the dissolution of solid {content.Substance.Name}";
            }
        }

        return (joule, model);
    }

    /// <summary>Heat that the neat acid or solid base gives with water besides, in J/mol; null for any other.</summary>
    private static double? DissolutionJPerMol(Content content) =>
        content is { Substance.Key: SulfuricAcid, MassFraction: null or >= Concentrated } ? SulfuricDilutionJPerMol
        : content.MassFraction is null or >= 1 && SolutionJPerMol.TryGetValue(content.Substance.Key, out var solution) ? solution
        : null;

    private static double WaterMol(IReadOnlyList<Content> contents) => contents.Where(static content => content.Substance.Key is SolutionVapour.Water).Sum(static content => content.Mol ?? 0);

    private sealed record Neutralisation(double Mol, double Joule, string Names, string Model, string[] Materials);
}
