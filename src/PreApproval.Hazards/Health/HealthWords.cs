using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Health;

/// <summary>What the hazard statements of a group say, no more than the codes that are there (wording of the statements: GHS, annex 3).</summary>
internal static class HealthWords
{
    /// <summary>The predicate of a sentence whose subject is one or several materials.</summary>
    /// <param name="group">Code of the finding.</param>
    /// <param name="codes">Hazard statements of the group that are there.</param>
    /// <param name="several">True for several materials: each has one or another of them.</param>
    public static string Of(string group, IReadOnlyList<string> codes, bool several) => group switch
    {
        "toxicity.cmr" => $"{(several ? "cause" : "causes")} {Joined([.. Each(codes, ("H350", "cancer"), ("H340", "genetic damage"), ("H360", "harm to reproduction"))], several)} (category 1)",
        "toxicity.acute" => $"{(several ? "are" : "is")} {Joined([.. Level(codes)], or: true)} when {Joined([.. Each(codes, ("H300", "swallowed"), ("H301", "swallowed"), ("H310", "on the skin"), ("H311", "on the skin"), ("H330", "breathed"), ("H331", "breathed"))], or: true)}",
        "toxicity.corrosive" => Has(codes, "H314")
            ? $"{(several ? "burn" : "burns")} skin and eyes{(several && Has(codes, "H318") ? ", or damage the eyes for good" : "")}"
            : $"{(several ? "damage" : "damages")} the eyes for good",
        "toxicity.sensitising" => Has(codes, "H334") ? "can cause asthma or allergy" : "can cause an allergy of the skin",
        "toxicity.organs" => several ? "damage organs" : "damages organs",
        _ => throw new ArgumentOutOfRangeException(nameof(group), group, "No such group of hazard statements."),
    };

    private static IEnumerable<string> Level(IReadOnlyList<string> codes)
    {
        if (Has(codes, "H300") || Has(codes, "H310") || Has(codes, "H330"))
        {
            yield return "fatal";
        }

        if (Has(codes, "H301") || Has(codes, "H311") || Has(codes, "H331"))
        {
            yield return "toxic";
        }
    }

    private static List<string> Each(IReadOnlyList<string> codes, params ReadOnlySpan<(string Code, string Words)> known)
    {
        var words = new List<string>(known.Length);
        foreach (var (code, one) in known)
        {
            if (Has(codes, code) && !words.Contains(one))
            {
                words.Add(one);
            }
        }

        return words;
    }

    // a letter behind the number tells the route or the kind of harm
    private static bool Has(IReadOnlyList<string> codes, string code)
    {
        for (var index = 0; index < codes.Count; index++)
        {
            if (codes[index].StartsWith(code, StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    private static string Joined(string[] words, bool or) => !or || words.Length < 2 ? Wording.List(words) : $"{string.Join(", ", words[..^1])} or {words[^1]}";
}
