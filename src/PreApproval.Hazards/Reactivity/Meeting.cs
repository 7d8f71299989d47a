using System.Collections.Frozen;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Reactivity;

/// <summary>An encounter that happens: who meets whom.</summary>
/// <param name="Encounter">The row of the table.</param>
/// <param name="A">Members of the first family.</param>
/// <param name="B">Members of the second family.</param>
/// <param name="C">Members of the third family; empty when the row has none.</param>
internal sealed partial record Meeting(Encounter Encounter, IReadOnlyList<Content> A, IReadOnlyList<Content> B, IReadOnlyList<Content> C)
{
    /// <summary>Partial pressure of oxygen in Pa up to which a vessel counts as purged (5 vol% at atmospheric pressure, the limiting oxygen concentration of hydrogen in nitrogen).</summary>
    private const double PurgedOxygenPa = 5e3;

    // the families of one scene at a time: filled anew for each, kept for the next
    [ThreadStatic]
    private static HashSet<string>? here;

    [ThreadStatic]
    private static List<Partner>? together;

    /// <summary>Family that turns a peroxide, an N-halo imide or an iodine(III) or (V) compound into what is none.</summary>
    internal const string Reductants = "sulfites and thiosulfates";

    internal static readonly string[] Reducible = ["organic peroxides", "hydrogen peroxide", "N-halo imides", "hypervalent iodine oxidants"];

    private const string Ozone = "ozone";
    private const string Alkenes = "alkenes";

    /// <summary>What reduces an ozonide and takes up what ozone is left.</summary>
    private static readonly string[] OzonideReductants = [Reductants, "thiols and sulfides", "tertiary phosphines", "borohydrides", "electropositive metals"];

    private static readonly FamilyTable Families = FamilyTable.Default;

    private static readonly FrozenSet<(string Row, string Solute, string Solvent)> StockSolutions =
        EmbeddedTable.Rows("stock-solutions.tsv").Select(static row => (row["row"], row["first"], row["second"])).ToFrozenSet();

    public IEnumerable<Content> Everyone => [.. A, .. B, .. C];

    /// <summary>Equivalents of the first partner in mol; null when the amount of any member is not known.</summary>
    public double? AEquivalents => Equivalents(A, Encounter.A);

    /// <summary>Equivalents of the first partner in mol that the second can take up; null when the amount of any member of the second is not known.</summary>
    public double? BEquivalents => Equivalents(B, Encounter.B) / Encounter.SecondPerFirst;

    /// <summary>Key of the substance that loses the gas, the first of its side; the catalyst is not it.</summary>
    public string Gasser => Gassing is [var one, ..] ? one.Substance.Key : Encounter.SecondLimits ? Encounter.B : Encounter.A;

    /// <summary>The side that loses the gas.</summary>
    public IReadOnlyList<Content> Gassing => Encounter.SecondLimits ? B : A;

    /// <summary>Equivalents of the limiting partner in mol, of the catalysed one where the other is a catalyst; null when no amount is known on either side.</summary>
    public double? LimitingEquivalents => Least(AEquivalents, BEquivalents);

    /// <summary>
    /// <see cref="LimitingEquivalents"/>, or, where an amount is missing, those of the members whose amounts are known: it may raise a hazard and never lowers one; null when no amount is known.
    /// </summary>
    public double? CountedEquivalents => LimitingEquivalents ?? Least(Known(A, Encounter.A), Known(B, Encounter.B) / Encounter.SecondPerFirst);

    /// <summary>Gas in mol; null when it cannot be had; 0 when the row makes none.</summary>
    public double? GasMol => Encounter.Gas is null ? 0 : LimitingEquivalents * Encounter.GasPerEquivalent * FreedShare;

    /// <summary>Gas in mol of what is known, for what it may raise: <see cref="CountedEquivalents"/>.</summary>
    public double? CountedGasMol => Encounter.Gas is null ? 0 : CountedEquivalents * Encounter.GasPerEquivalent * FreedShare;

    /// <summary>Share of the gas that comes off, 0 to 1: a base beside the partners keeps a hydrogen halide as its salt.</summary>
    public double FreedShare { get; init; } = 1;

    /// <summary>Every encounter among what shares a vessel at a step, the air over it and the glass around it included.</summary>
    public static IReadOnlyList<Meeting> At(StepState state) => At(state, EncounterIndex.Default);

    /// <summary>The same against the rows of another table.</summary>
    public static IReadOnlyList<Meeting> At(StepState state, EncounterIndex table)
    {
        var partners = together ??= [];
        partners.Clear();
        for (var index = 0; index < state.Contents.Count; index++)
        {
            var content = state.Contents[index];
            if (!content.Spent && content.Mol is null or > 0)
            {
                partners.Add(Partner.Of(content, Strength(content, state)));
            }
        }

        AddGases(partners, state);
        var meetings = HydrogenHalides.KeptByBase(Among(partners, state, state.WorstTemperatureK, table), state.Contents);
        partners.Clear();
        if (state.Reactions.Count > 0 && (state.GasMade.Count > 0 || !ReferenceEquals(state.Remaining, state.Contents)))
        {
            meetings = WithProducts(meetings, state, table);
        }

        return meetings;
    }

    private static Meeting[] WithProducts(IReadOnlyList<Meeting> meetings, StepState state, EncounterIndex table) =>
        [.. meetings, .. OfProducts(state, table).Where(own => !meetings.Any(meeting => ReferenceEquals(meeting.Encounter, own.Encounter)))];

    /// <summary>
    /// What the step itself makes, against heat, air and what is done to it: nothing else of its step may be left to meet, and what is left meets it in the next. A gas is gone by then, and a weak finding
    /// about it would repeat what is said of gas anyway: only a danger, or what its own decomposition does, is kept.
    /// </summary>
    private static IEnumerable<Meeting> OfProducts(StepState state, EncounterIndex table)
    {
        var made = state.Remaining.Where(left => !left.Spent && left.Mol is null or > 0 && !state.Contents.Any(before => SameKind(before, left))).Select(static left => Partner.Of(left, left.MassFraction)).ToList();
        var gases = state.GasMade.Where(static gas => gas.Mol is null or > 0).Select(static gas => Partner.Of(new Content(gas.Gas, null, gas.Mol, 1), 1)).ToList();
        return Among(made, state, state.WorstTemperatureK, table)
            .Concat(Among(gases, state, state.WorstTemperatureK, table).Where(static meeting => meeting.Encounter.Severity == Severity.Danger || EncounterTable.Treatments.Contains(meeting.Encounter.B, StringComparer.Ordinal)))
            .DistinctBy(static meeting => meeting.Encounter.Key, StringComparer.Ordinal);
    }

    private static bool SameKind(Content one, Content other) =>
        string.Equals(one.Substance.Key, other.Substance.Key, StringComparison.Ordinal) && string.Equals(one.MaterialId, other.MaterialId, StringComparison.Ordinal);

    /// <summary>Every encounter among materials that end up together, at room temperature, in contact with air.</summary>
    public static IReadOnlyList<Meeting> Among(IEnumerable<Content> contents) =>
        Among([.. contents.Select(static content => Partner.Of(content, content.MassFraction))], scene: null, Walk.RoomTemperatureK, EncounterIndex.Default);

    /// <summary>What is there besides the contents: air, what the vessel is made of, and what is done in the step.</summary>
    private static void AddScene(HashSet<string> present, StepState state)
    {
        if (state.Headspace is Headspace.Air)
        {
            present.Add(EncounterTable.Air);
        }

        Construction.AddTo(present, state.Vessel);
        if (state.Headspace is Headspace.Gas && state.Closing is { } closing
            && OxygenIn(closing) * closing.PressurePaAbs > PurgedOxygenPa)
        {
            present.Add(EncounterTable.UnpurgedAir);
        }

        present.Add(EncounterTable.Heat);
        if (state.Step.Action is StepAction.Concentrate or StepAction.Distil)
        {
            present.Add(EncounterTable.Concentrating);
        }

        if (state.Step.Action is StepAction.Grind)
        {
            present.Add(EncounterTable.Grinding);
        }

        // drying a solution with a salt leaves it a solution
        if (state.Step is { Action: StepAction.Dry, Materials.Count: 0 })
        {
            present.Add(EncounterTable.Drying);
        }

        if (state.Step.Action is StepAction.Store)
        {
            present.Add(EncounterTable.Storing);
        }

        if (Construction.HasGroundJoints(state.Vessel))
        {
            present.Add(EncounterTable.GroundJoints);
        }
    }

    private static double OxygenIn(Closing closing)
    {
        double oxygen = 0;
        for (var index = 0; index < closing.Gases.Count; index++)
        {
            oxygen += closing.Gases[index].Gas == StandardGases.Oxygen ? closing.Gases[index].Fraction : 0;
        }

        return oxygen;
    }

    private static List<Meeting> Among(List<Partner> partners, StepState? scene, double temperatureK, EncounterIndex table)
    {
        var present = here ??= new HashSet<string>(StringComparer.Ordinal);
        present.Clear();
        if (scene is not null)
        {
            AddScene(present, scene);
        }

        foreach (var partner in partners)
        {
            for (var index = 0; index < partner.Families.Count; index++)
            {
                present.Add(partner.Families[index]);
            }
        }

        var reduced = present.Contains(Reductants);
        var ozonideReduced = present.Contains(Ozone) && IsOzonideReduced(partners);
        List<(int Row, Meeting Meeting)>? meetings = null;
        foreach (var family in present)
        {
            foreach (var (row, encounter) in table.From(family))
            {
                // what a sulfite or thiosulfate has reduced is no peroxide any more when it is warmed or evaporated
                if (!present.Contains(encounter.B) || (encounter.C is { } third && !present.Contains(third))
                    || temperatureK <= encounter.AboveK || temperatureK > encounter.BelowK
                    || (reduced && EncounterTable.StandIns.ContainsKey(encounter.B) && Reducible.Contains(encounter.A, StringComparer.Ordinal))
                    || (ozonideReduced && encounter is { A: Ozone } && (encounter.Floor is not null || encounter.C is Alkenes)))
                {
                    continue;
                }

                var meeting = new Meeting(encounter, Members(partners, encounter.A), Members(partners, encounter.B), encounter.C is null ? [] : Members(partners, encounter.C));
                if (meeting.AreApart() && !IsToldElsewhere(meeting, partners, present))
                {
                    (meetings ??= []).Add((row, meeting));
                }
            }
        }

        if (meetings is null)
        {
            return [];
        }

        // in the order of the table
        meetings.Sort(static (one, other) => one.Row.CompareTo(other.Row));
        return meetings.ConvertAll(static entry => entry.Meeting);
    }

    private double? Least(double? first, double? second) =>
        Encounter.FirstLimits || (second is null && !Encounter.SecondLimits) ? first
            : Encounter.SecondLimits || first is null ? second
            : Math.Min(first.Value, second!.Value);

    private static double? Equivalents(IReadOnlyList<Content> members, string family)
    {
        foreach (var member in members)
        {
            if (member.Mol is null)
            {
                return null;
            }
        }

        return Known(members, family);
    }

    private static double? Known(IReadOnlyList<Content> members, string family)
    {
        double? sum = null;
        for (var index = 0; index < members.Count; index++)
        {
            var member = members[index];
            if (member.Mol is not { } mol)
            {
                continue;
            }

            sum = (sum ?? 0) + (mol * Families.Equivalents(member.Substance, family));
        }

        return sum;
    }

    /// <summary>A content with the families it belongs to at its strength.</summary>
    private readonly record struct Partner(Content Content, IReadOnlyList<string> Families)
    {
        public static Partner Of(Content content, double? fraction) => new(content, Meeting.Families.Of(content.Substance, fraction));
    }
}
