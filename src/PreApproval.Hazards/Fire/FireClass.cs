using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Fire;

/// <summary>What burns; the letters differ between standards.</summary>
public enum Burning
{
    Solid,
    Liquid,
    Gas,
    Metal,

    /// <summary>Hot oil of a bath: it lights again after a flame is out, and throws itself out when water boils in it.</summary>
    HotOil,
}

/// <summary>A class of fire in both schemes. A bare letter is ambiguous: C is gas in EN 2 and energised equipment in NFPA 10.</summary>
public static class FireClass
{
    /// <summary>Letter of EN 2.</summary>
    public static string En2(Burning burning) => burning switch
    {
        Burning.Solid => "A",
        Burning.Liquid => "B",
        Burning.Gas => "C",
        Burning.Metal => "D",
        Burning.HotOil => "F",
    };

    /// <summary>Letter of NFPA 10; liquids and gases share one.</summary>
    public static string Nfpa10(Burning burning) => burning switch
    {
        Burning.Solid => "A",
        Burning.Liquid or Burning.Gas => "B",
        Burning.Metal => "D",
        Burning.HotOil => "K",
    };

    /// <summary>Both schemes, for instance <c>EN 2 class B and D (NFPA 10 class B and D)</c>.</summary>
    public static string Words(IReadOnlyCollection<Burning> burning)
    {
        // there are few such sets, and a plan says the same one again and again
        var set = 0;
        foreach (var kind in burning)
        {
            set |= 1 << (int)kind;
        }

        return Said[set] ??= Say(burning);
    }

    private static readonly Burning[] Kinds = Enum.GetValues<Burning>();

    private static readonly string?[] Said = new string?[1 << Enum.GetValues<Burning>().Length];

    private static string Say(IReadOnlyCollection<Burning> burning)
    {
        if (burning.Count == 0)
        {
            return "no class of fire (EN 2 and NFPA 10 have none for what needs no air)";
        }

        var ordered = burning.Order().ToArray();
        return $"EN 2 class {Join(ordered.Select(En2))} (NFPA 10 class {Join(ordered.Select(Nfpa10))})";
    }

    /// <summary>What burns, in the order of the classes, and hot oil beside it.</summary>
    internal static Burning[] InOrder(IReadOnlySet<Burning> burning, bool hotOil)
    {
        Span<Burning> ordered = stackalloc Burning[Kinds.Length];
        var count = 0;
        foreach (var kind in Kinds)
        {
            if (burning.Contains(kind) || (hotOil && kind == Burning.HotOil))
            {
                ordered[count++] = kind;
            }
        }

        return ordered[..count].ToArray();
    }

    private static string Join(IEnumerable<string> letters) => Screening.Wording.List(letters.Distinct(StringComparer.Ordinal));
}

/// <summary>What in a vessel can burn.</summary>
public static class BurningMaterials
{
    /// <summary>Melting point in K up to which a solid counts as one that a fire melts at once (100 °C; EN 2 puts liquefiable solids in class B and names no temperature). Common practice, no source.</summary>
    internal const double LiquefiableK = 373.15;

    /// <summary>Kinds of burning material among the contents; a solid in a flammable liquid burns with the liquid, and one that is molten or melts at once burns as a liquid.</summary>
    /// <param name="contents">What is in the vessel.</param>
    /// <param name="temperatureK">Highest temperature of the contents in K.</param>
    public static IReadOnlySet<Burning> Of(IReadOnlyList<Content> contents, double temperatureK = Walk.RoomTemperatureK)
    {
        ArgumentNullException.ThrowIfNull(contents);
        var burning = 0;
        var dilute = IsDilute(contents);
        for (var index = 0; index < contents.Count; index++)
        {
            if (!contents[index].Spent && Of(contents[index].Substance) is { } kind && !(dilute && (kind is Burning.Liquid or Burning.Solid)))
            {
                burning |= Bit(kind == Burning.Solid && contents[index].Substance.Known!.MeltingPointK is { } melts && melts.Value <= Math.Max(temperatureK, LiquefiableK) ? Burning.Liquid : kind);
            }
        }

        return Sets[(burning & Bit(Burning.Liquid)) != 0 ? burning & ~Bit(Burning.Solid) : burning];
    }

    // there are few such sets, and a plan has the same one again and again: equal ones are one
    private static readonly IReadOnlySet<Burning>[] Sets =
        [.. Enumerable.Range(0, 1 << Enum.GetValues<Burning>().Length).Select(static bits => new SortedSet<Burning>(Enum.GetValues<Burning>().Where(kind => (bits & Bit(kind)) != 0)))];

    private static int Bit(Burning kind) => 1 << (int)kind;

    /// <summary>
    /// Mass share of what burns below which water does not: ethanol of 5 % flashes near 62 °C, of 1 % not below boiling (published flash points, from memory). Common practice, no source.
    /// </summary>
    private const double DiluteShare = 0.02;

    /// <summary>True for an aqueous mixture with so little that burns that it is water to a fire; an unknown amount is never little, and what floats on the water burns as it would alone.</summary>
    private static bool IsDilute(IReadOnlyList<Content> contents)
    {
        double burns = 0;
        double water = 0;
        for (var index = 0; index < contents.Count; index++)
        {
            var content = contents[index];
            if (content.Spent)
            {
                continue;
            }

            var kg = content.Mol * content.Substance.Known?.Identity.MolarMassKgPerMol;
            if (string.Equals(content.Substance.Key, Water, StringComparison.Ordinal))
            {
                water += kg ?? 0;
            }
            else if (Of(content.Substance) is not null)
            {
                burns += kg ?? double.PositiveInfinity;
            }
        }

        return burns < DiluteShare * (burns + water) && LiquidLayers.Of(contents, Walk.RoomTemperatureK).Mix is true;
    }

    private const string Water = "7732-18-5";

    /// <summary>How a substance burns; null: it does not, or nobody knows.</summary>
    public static Burning? Of(PlanSubstance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        if (FamilyTable.Default.BurnsAsMetal(substance))
        {
            return Burning.Metal;
        }

        if (substance.Known is not { } known || known.NonFlammable is { Value: true })
        {
            return null;
        }

        return known.PhaseAt298K switch
        {
            Phase.Gas => known.LowerFlammableLimit is not null || known.AutoignitionK is not null || known.NonFlammable is { Value: false } ? Burning.Gas : null,
            Phase.Liquid => known.FlashPointK is not null || known.NonFlammable is { Value: false } || IsOrganic(known) ? Burning.Liquid : null,
            Phase.Solid => !known.Involatile && (known.FlashPointK is not null || IsOrganic(known)) ? Burning.Solid : null,
        };
    }

    /// <summary>True when the formula has carbon and hydrogen: taken to burn until someone says otherwise.</summary>
    internal static bool IsOrganic(Substance known) => known.Identity.Formula is { } formula && HasElement(formula, 'C') && HasElement(formula, 'H');

    private static bool HasElement(string formula, char symbol)
    {
        for (var index = 0; index < formula.Length; index++)
        {
            if (formula[index] == symbol && (index + 1 == formula.Length || !char.IsLower(formula[index + 1])))
            {
                return true;
            }
        }

        return false;
    }
}
