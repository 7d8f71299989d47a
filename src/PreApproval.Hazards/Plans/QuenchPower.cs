using PreApproval.Hazards.Reactivity;

namespace PreApproval.Hazards.Plans;

/// <summary>
/// What a quench can destroy: one equivalent for each proton that water, alcohol or acid gives at once, and for hydrides and
/// carbon nucleophiles one for each carbonyl of a ketone or aldehyde and two for that of an ester. What has no such group
/// (toluene, brine's salt) destroys nothing. Textbook stoichiometry.
/// </summary>
internal sealed class QuenchPower(IEnumerable<Content> quench)
{
    private static readonly FamilyTable Families = FamilyTable.Default;

    private static readonly string[] Protic = ["water", "alcohols", "mineral acids", "organic acids", "concentrated sulfuric and superacids", "ammonium salts"];

    private static readonly (string Family, double Equivalents)[] Carbonyl = [("ketones", 1), ("methyl and cyclic ketones", 1), ("aldehydes", 1), ("esters", 2)];

    private static readonly string[] AddToCarbonyl =
    [
        "saline hydrides", "aluminium hydrides", "borohydrides", "boranes", "organolithium compounds", "tertiary alkyllithium", "organomagnesium halides",
    ];

    private static readonly string[] GivesProtonsAtOnce = ["water", "mineral acids", "organic acids", "concentrated sulfuric and superacids"];

    private static readonly string[] Acids = ["mineral acids", "organic acids", "concentrated sulfuric and superacids"];

    private const string Hydroxides = "alkali hydroxides";

    private static readonly string[] GoneAtOnce = ["saline hydrides", "aluminium hydrides", "organolithium compounds", "tertiary alkyllithium", "organomagnesium halides"];

    /// <summary>True for what need not be called a quench to be one: water and acids.</summary>
    public static bool QuenchesWhenAdded(Content content) => Families.Of(content.Substance, content.MassFraction).Any(static family => GivesProtonsAtOnce.Contains(family, StringComparer.Ordinal));

    /// <summary>True for what water and acids destroy as fast as they come in. Borohydrides, metals and acid chlorides live on and are not.</summary>
    public static bool IsGoneAtOnce(Content content) => Families.Of(content.Substance, content.MassFraction).Any(static family => GoneAtOnce.Contains(family, StringComparer.Ordinal));

    private readonly Source[] sources = [.. quench.Select(static content => new Source(content))];

    /// <summary>Mol of the content that the quench has power left for, which it then has no more.</summary>
    public double Destroy(Content content)
    {
        var families = Families.Of(content.Substance, content.MassFraction);
        // water and alcohols leave a hydroxide what it is; an acid neutralises it
        var neutralised = families.Contains(Hydroxides, StringComparer.Ordinal);
        if (content.Mol is not { } mol || !(neutralised || Families.IsDestroyedByQuench(content.Substance)))
        {
            return 0;
        }

        var each = families.Max(family => Families.Equivalents(content.Substance, family));
        var addsToCarbonyl = families.Any(static family => AddToCarbonyl.Contains(family, StringComparer.Ordinal));
        var needed = mol * each;
        foreach (var source in sources)
        {
            needed -= !neutralised || source.IsAcid ? source.Take(needed, addsToCarbonyl) : 0;
        }

        return each > 0 ? mol - (Math.Max(needed, 0) / each) : 0;
    }

    private sealed class Source
    {
        private readonly bool protic;
        private double left;

        public Source(Content content)
        {
            var families = Families.Of(content.Substance);
            var givers = families.Where(static family => Protic.Contains(family, StringComparer.Ordinal)).ToArray();
            protic = givers.Length > 0;
            IsAcid = families.Any(static family => Acids.Contains(family, StringComparer.Ordinal));
            var each = protic
                ? givers.Max(family => Families.Equivalents(content.Substance, family))
                : Carbonyl.Where(pair => families.Contains(pair.Family, StringComparer.Ordinal)).Select(static pair => pair.Equivalents).DefaultIfEmpty(0).Max();
            left = each * content.Mol ?? 0;
        }

        public bool IsAcid { get; }

        public double Take(double needed, bool addsToCarbonyl)
        {
            var taken = protic || addsToCarbonyl ? Math.Min(left, needed) : 0;
            left -= taken;
            return taken;
        }
    }
}
