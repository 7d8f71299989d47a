using PreApproval.Documents.Reading;

namespace PreApproval.Documents.Comparing;

/// <summary>The parts of a plan that have no name of their own.</summary>
internal static class OtherParts
{
    public static IEnumerable<PlanChange> Reactions(ProcedureDocument before, ProcedureDocument after, PartNames materials, PartNames steps) =>
        Unnamed(PlanPart.Reaction, before.Reactions, after.Reactions, one => steps.Of(one.Step), static one => one.Step, one => Reaction(one, materials), static one => Reaction(one, new PartNames()));

    public static IEnumerable<PlanChange> Safeguards(ProcedureDocument before, ProcedureDocument after, PartNames steps) =>
        Unnamed(PlanPart.Safeguard, before.Safeguards, after.Safeguards, static one => one.Control, static one => one.Control, one => Safeguard(one, steps), static one => Safeguard(one, new PartNames()));

    public static IEnumerable<PlanChange> Waste(ProcedureDocument before, ProcedureDocument after, PartNames materials) =>
        Unnamed(PlanPart.Waste, before.Waste, after.Waste, static one => one.Container, static one => one.Container, one => Waste(one, materials), static one => Waste(one, new PartNames()));

    public static Statements FireResponse(ProcedureDocument document) => new Statements()
        .With("extinguishing agents", Agents(document.FireResponse?.Agents), AgentKeys(document.FireResponse?.Agents))
        .With("what to do in a fire", document.FireResponse?.Plan);

    public static Statements Circumstances(ProcedureDocument document, PartNames materials) => new Statements()
        .With("scale", document.Scale is { Amount: { } amount } scale ? $"{PlanWords.Of(amount)} of {scale.Limiting}" : null, document.Scale is { } of ? $"{PlanWords.KeyOf(of.Amount)} {(of.Limiting is { } limiting ? materials.Of(limiting) : "")}" : null)
        .With("attendance", document.Attendance is { } attendance ? Words.Attendances.WordOf(attendance) : null)
        .With("help within call", document.Lone switch { true => "nobody else", false => "somebody", null => null })
        .With("experience", document.People?.Experience is { } experience ? Words.Experiences.WordOf(experience) : null)
        .With("gloves", document.Protection?.Gloves)
        .With("eyes", document.Protection?.Eyes)
        .With("coat", document.Protection?.Coat)
        .With("place", document.Place?.Name)
        .With("kind of place", document.Place?.Kind is { } kind ? Words.PlaceKinds.WordOf(kind) : null)
        .With("volume of the room", document.Place?.RoomVolume)
        .With("air flow", document.Place?.AirFlow)
        .With("agents that stand there", Agents(document.Place?.Agents), AgentKeys(document.Place?.Agents))
        .With("planned on", document.PlannedOn);

    /// <summary>Each statement is a line of its own.</summary>
    public static IEnumerable<PlanChange> Single(PlanPart part, Statements before, Statements after) => Statements.Differences(before, after)
        .Select(one => new PlanChange { Part = part, Name = one.Name, Effect = one.Before is null ? PlanEffect.Added : one.After is null ? PlanEffect.Removed : PlanEffect.Changed, Before = one.Before, After = one.After });

    /// <summary>Entries of one key are matched: those that state the same first, the others in their order.</summary>
    private static IEnumerable<PlanChange> Unnamed<T>(PlanPart part, IReadOnlyList<T>? before, IReadOnlyList<T>? after, Func<T, string> keyBefore, Func<T, string> key, Func<T, Statements> old, Func<T, Statements> now)
        where T : class
    {
        List<T> left = [.. before ?? []];
        List<T> come = [.. after ?? []];
        come.RemoveAll(other => left.Find(one => IsOf(one, other) && !Statements.Differences(old(one), now(other)).Any()) is { } same && left.Remove(same));
        foreach (T other in come)
        {
            var place = new PlanChange { Part = part, Name = key(other), Effect = PlanEffect.Added };
            T? was = left.Find(one => IsOf(one, other));
            foreach (PlanChange change in was is null ? [place with { After = now(other).Words }] : PlanComparison.Changes(place, old(was), now(other)))
            {
                yield return change;
            }

            if (was is not null)
            {
                left.Remove(was);
            }
        }

        foreach (T one in left)
        {
            yield return new PlanChange { Part = part, Name = key(one), Effect = PlanEffect.Removed, Before = old(one).Words };
        }

        bool IsOf(T one, T other) => string.Equals(keyBefore(one), key(other), StringComparison.OrdinalIgnoreCase);
    }

    private static Statements Reaction(ReactionEntry reaction, PartNames materials) => new Statements()
        .With("consumes", Sum(reaction.Consumes?.Select(static one => $"{PlanWords.Number(one.Equivalents)} {one.Material}")), Key(reaction.Consumes?.Select(one => $"{PlanWords.Number(one.Equivalents)} {materials.Of(one.Material)}")))
        .With("makes", Sum(reaction.Produces?.Select(Made)), Key(reaction.Produces?.Select(static one => $"{PlanWords.Number(one.Equivalents)} {PlanWords.KeyOf(one.Substance)} {one.State}")))
        .With("heat", reaction.Heat)
        .With("unreacted share", reaction.Accumulation is { } share ? PlanWords.Number(share) : null)
        .With("decomposition from", reaction.DecompositionOnset);

    private static string Made(ProductionEntry one) => $"{PlanWords.Number(one.Equivalents)} {PlanWords.Of(one.Substance)}{(one.State is { } state ? $" ({Words.States.WordOf(state)})" : "")}";

    /// <summary>A safeguard that names no steps covers all.</summary>
    private static Statements Safeguard(SafeguardEntry safeguard, PartNames steps) => new Statements()
        .Plain("steps", safeguard.Steps is { Count: > 0 } some ? $"{(some.Count == 1 ? "step" : "steps")} {string.Join(", ", some)}" : "all steps", safeguard.Steps is { Count: > 0 } named ? Key(named.Select(steps.Of)) : "")
        .With("detail", safeguard.Detail);

    private static Statements Waste(WasteEntry waste, PartNames materials) => new Statements()
        .Plain("materials", string.Join(", ", waste.Materials), Key(waste.Materials.Select(materials.Of)));

    private static string? Sum(IEnumerable<string>? parts) => parts is null ? null : string.Join(" + ", parts);

    private static string? Key(IEnumerable<string>? parts) => parts is null ? null : PlanWords.KeyOf(parts);

    private static string? Agents(IReadOnlyList<Hazards.Plans.Agent>? agents) => agents is null ? null : agents.Count == 0 ? "none" : string.Join(", ", agents.Select(Words.Agents.WordOf));

    private static string? AgentKeys(IReadOnlyList<Hazards.Plans.Agent>? agents) => agents is null ? null : PlanWords.KeyOf(agents.Select(Words.Agents.WordOf));
}
