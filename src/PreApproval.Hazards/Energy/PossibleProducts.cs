using System.Collections.Frozen;
using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Energy;

/// <summary>An explosive that an encounter can have left in a vessel, named by no line of the plan.</summary>
/// <param name="Substance">What, by its name alone.</param>
/// <param name="Kg">The most there can be of it, in kg; null: not known.</param>
/// <param name="Materials">What it forms from.</param>
/// <param name="Step">Identifier of the step that brings them together.</param>
public sealed record PossibleProduct(PlanSubstance Substance, double? Kg, IReadOnlyList<string> Materials, string Step)
{
    /// <summary>Molecular formula, where it follows from the partners; else null.</summary>
    public string? Formula { get; init; }

    /// <summary>What its name and its formula tell; null where they tell of no energetic group.</summary>
    internal EnergeticProfile? Profile => EnergeticProfile.Of(Substance) is not { } named ? null
        : Formula is null ? named
        : named with { Formula = Formula, MolarMassKgPerMol = Substances.Formula.MolarMassKgPerMol(Formula) };
}

/// <summary>
/// Carries what energetic encounters can make (Data/energetic-products.tsv) from the step that brings the partners together to all that follow, so that a filtration, a drying or a fire there is not judged by the
/// solvents alone. Method: docs/methods/energetic-substances.md.
/// </summary>
internal static class PossibleProducts
{
    private static readonly FrozenDictionary<string, Row[]> Rows = EmbeddedTable.Rows("energetic-products.tsv")
        .Select(static row => new Row(row["encounter"], row["with"], row["product"], row["gramsPerMol"].Length == 0 ? null : double.Parse(row["gramsPerMol"], NumberStyles.Float, CultureInfo.InvariantCulture), row["exchange"]))
        .GroupBy(static row => row.Encounter, StringComparer.Ordinal)
        .ToFrozenDictionary(static group => group.Key, static group => group.ToArray(), StringComparer.Ordinal);

    /// <summary>Encounters that have rows.</summary>
    internal static IEnumerable<string> Encounters => Rows.Keys;

    /// <summary>The same walk with what each vessel can hold beside its contents; itself where nothing forms.</summary>
    public static WalkResult Noted(Plan plan, WalkResult walk)
    {
        Dictionary<string, PossibleProduct[]>? held = null;
        List<StepState>? noted = null;
        for (var index = 0; index < walk.States.Count; index++)
        {
            var state = walk.States[index];
            var before = index > 0 && walk.States[index - 1] is var source && source.Index == state.Index ? source : null;
            if (held is null && !Forms(state))
            {
                continue;
            }

            noted ??= [.. walk.States];
            held ??= new Dictionary<string, PossibleProduct[]>(StringComparer.Ordinal);
            // what a step moves comes along
            var own = With(held.GetValueOrDefault(state.Vessel.Id, []), before is null ? [] : noted[index - 1].CanHold);
            own = With(own, MadeIn(state, plan));
            noted[index] = own.Length == 0 ? state : state with { CanHold = own };
            held[state.Vessel.Id] = own;
            if (before?.Step.Action is StepAction.Transfer or StepAction.Discard)
            {
                held.Remove(before!.Vessel.Id);
            }
            else if (state.ContentsAfter.Count == 0)
            {
                held.Remove(state.Vessel.Id);
            }
        }

        // built anew: a copy would take along what the walk has worked out from its states before
        return noted is null ? walk : new WalkResult(noted, walk.Issues, walk.UsedMaterials) { Ledger = walk.Ledger, LeftInVessels = walk.LeftInVessels };
    }

    private static bool Forms(StepState state)
    {
        var meetings = state.Meetings;
        for (var index = 0; index < meetings.Count; index++)
        {
            if (Rows.ContainsKey(meetings[index].Encounter.Key))
            {
                return true;
            }
        }

        return false;
    }

    private static PossibleProduct[] MadeIn(StepState state, Plan plan) =>
    [
        .. state.Meetings.Where(static meeting => Rows.ContainsKey(meeting.Encounter.Key)).Select(meeting => Of(meeting, state, plan)).OfType<PossibleProduct>(),
    ];

    private static PossibleProduct? Of(Meeting meeting, StepState state, Plan plan)
    {
        if (meeting.A.Count == 0 || meeting.B.Count == 0)
        {
            return null;
        }

        var row = Array.Find(Rows[meeting.Encounter.Key], row => row.With.Length == 0 || meeting.B.Any(content => string.Equals(content.Substance.Known?.Identity.Cas, row.With, StringComparison.Ordinal)))!;
        var name = row.Product.Replace("{first}", meeting.A[0].Substance.Name, StringComparison.Ordinal).Replace("{second}", meeting.B[0].Substance.Name, StringComparison.Ordinal);
        var substance = new PlanSubstance(name, name, null);
        if (row.GramsPerMol is { } grams)
        {
            return new PossibleProduct(substance, meeting.CountedEquivalents * grams / 1000, Confinement.Findings.Ids(meeting.Everyone), state.Step.Id);
        }

        if (IsDeclared(meeting, plan))
        {
            return null;
        }

        var exchanged = AzideExchange.Of(meeting.B[0].Substance, row.Exchange is "all" ? null : FamilyTable.Default.Equivalents(meeting.B[0].Substance, meeting.Encounter.B));
        return new PossibleProduct(substance, meeting.CountedEquivalents / exchanged?.Azides * exchanged?.KgPerMol, Confinement.Findings.Ids(meeting.Everyone), state.Step.Id) { Formula = exchanged?.Formula };
    }

    /// <summary>A plan that says what becomes of the partners, or names an azide as its product, is judged by that.</summary>
    private static bool IsDeclared(Meeting meeting, Plan plan)
    {
        foreach (var reaction in plan.Reactions)
        {
            foreach (var consumed in reaction.Consumes)
            {
                if (meeting.Everyone.Any(content => string.Equals(content.MaterialId, consumed.MaterialId, StringComparison.Ordinal)))
                {
                    return true;
                }
            }
        }

        return plan.Materials.Any(static material => material.Role == Role.Product && AmountConversion.Parts(material.Composition).Any(static part => EnergeticProfile.Of(part.Substance)?.NitrogenRatio is not null));
    }

    /// <summary>Of one product the most that any encounter makes.</summary>
    private static PossibleProduct[] With(PossibleProduct[] held, IReadOnlyList<PossibleProduct> more)
    {
        foreach (var one in more)
        {
            var at = Array.FindIndex(held, other => string.Equals(other.Substance.Key, one.Substance.Key, StringComparison.Ordinal));
            held = at < 0 ? [.. held, one]
                : held[at].Kg is { } most && !(one.Kg <= most) ? [.. held[..at], one with { Step = held[at].Step }, .. held[(at + 1)..]]
                : held;
        }

        return held;
    }

    private sealed record Row(string Encounter, string With, string Product, double? GramsPerMol, string Exchange);
}
