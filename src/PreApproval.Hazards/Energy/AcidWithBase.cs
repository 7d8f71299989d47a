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
        for (var index = 0; index < contents.Count; index++)
        {
            if (contents[index] is { Spent: false, Mol: null or > 0 } content && Equivalents(content, families) is { } equivalents)
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
        var own = FamilyTable.Default.Of(content.Substance, content.MassFraction);
        for (var index = 0; index < own.Count; index++)
        {
            if (families.AsSpan().Contains(own[index]))
            {
                most = Math.Max(most ?? 0, FamilyTable.Default.Equivalents(content.Substance, own[index]));
            }
        }

        return most;
    }

    /// <param name="Mol">Equivalents in mol of what is known.</param>
    /// <param name="Known">What is there in known amounts.</param>
    /// <param name="Unknown">What is there in unknown amounts.</param>
    internal sealed record Side(double Mol, Content[] Known, Content[] Unknown);
}
