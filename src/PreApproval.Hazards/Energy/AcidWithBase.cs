using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;

namespace PreApproval.Hazards.Energy;

/// <summary>Acids and alkali hydroxides that share a vessel and are not spent.</summary>
/// <param name="Acids">The acids.</param>
/// <param name="Bases">The hydroxides.</param>
internal sealed record AcidWithBase(AcidWithBase.Side Acids, AcidWithBase.Side Bases)
{
    private static readonly string[] Hydroxides = ["alkali hydroxides"];

    private static readonly string[] AcidFamilies = ["mineral acids", "organic acids", "concentrated sulfuric and superacids"];

    public IEnumerable<Content> Everyone => Acids.Known.Concat(Acids.Unknown).Concat(Bases.Known).Concat(Bases.Unknown);

    /// <summary>Most that can neutralise, in mol: all of the side that is known; null when neither is.</summary>
    public double? AtMostMol => (Acids.Unknown.Length, Bases.Unknown.Length) switch
    {
        (0, 0) => Math.Min(Acids.Mol, Bases.Mol),
        (0, _) => Acids.Mol,
        (_, 0) => Bases.Mol,
        _ => null,
    };

    /// <summary>Null where one of the two is missing.</summary>
    public static AcidWithBase? In(IReadOnlyList<Content> contents) =>
        Of(contents, Hydroxides) is { } bases && Of(contents, AcidFamilies) is { } acids ? new AcidWithBase(acids, bases) : null;

    private static Side? Of(IReadOnlyList<Content> contents, string[] families)
    {
        List<Content>? known = null;
        List<Content>? unknown = null;
        double mol = 0;
        foreach (var content in contents)
        {
            if (content is { Spent: false, Mol: null or > 0 } && Equivalents(content, families) is { } equivalents)
            {
                (content.Mol is null ? unknown ??= [] : known ??= []).Add(content);
                mol += (content.Mol ?? 0) * equivalents;
            }
        }

        return known is null && unknown is null ? null : new Side(mol, [.. known ?? []], [.. unknown ?? []]);
    }

    private static double? Equivalents(Content content, string[] families)
    {
        double? most = null;
        foreach (var family in FamilyTable.Default.Of(content.Substance, content.MassFraction))
        {
            if (families.Contains(family, StringComparer.Ordinal))
            {
                most = Math.Max(most ?? 0, FamilyTable.Default.Equivalents(content.Substance, family));
            }
        }

        return most;
    }

    /// <param name="Mol">Equivalents in mol of what is known.</param>
    /// <param name="Known">What is there in known amounts.</param>
    /// <param name="Unknown">What is there in unknown amounts.</param>
    internal sealed record Side(double Mol, Content[] Known, Content[] Unknown);
}
