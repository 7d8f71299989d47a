namespace PreApproval.Web.Shared.Components;

/// <summary>
/// The sources behind the findings and encounters of one report, each once and numbered in the order in which they are met. Beside a number of
/// a finding stands the number of its source only; one source is behind dozens of numbers, and its full reference would fill the page as often.
/// </summary>
public sealed class SourceNumbers
{
    private readonly Dictionary<string, int> _numbers = new(StringComparer.Ordinal);

    private SourceNumbers(IEnumerable<string> sources)
    {
        foreach (string source in sources.Where(static source => source.Length > 0))
        {
            _numbers.TryAdd(source, _numbers.Count + 1);
        }
    }

    /// <summary>Number and full reference, in order.</summary>
    public IEnumerable<(int Number, string Source)> All => _numbers.Select(static entry => (entry.Value, entry.Key)).OrderBy(static entry => entry.Value);

    /// <summary>Those of one finding that stands alone.</summary>
    public static SourceNumbers Of(FindingView finding) => new(SourcesOf(finding));

    /// <summary>Those of a whole report.</summary>
    public static SourceNumbers Of(ScreeningView screening)
    {
        ArgumentNullException.ThrowIfNull(screening);
        return new(screening.Findings.SelectMany(SourcesOf)
            .Concat(screening.Encounters.SelectMany(static strip => strip.Hazards.SelectMany(static hazard => hazard.Source).Concat(strip.NoneKnown.SelectMany(static group => group.Source)))));
    }

    /// <summary>For instance <c>[2, 5]</c>; empty where no source is named.</summary>
    public string Marks(IEnumerable<string> sources)
    {
        int[] numbers = [.. sources.Select(source => _numbers.GetValueOrDefault(source)).Where(static number => number > 0).Distinct().Order()];
        return numbers.Length == 0 ? "" : $"[{string.Join(", ", numbers)}]";
    }

    /// <summary>The references of a few sources, as <see cref="All"/>.</summary>
    public IEnumerable<(int Number, string Source)> Only(IEnumerable<string> sources)
    {
        HashSet<string> wanted = new(sources, StringComparer.Ordinal);
        return All.Where(entry => wanted.Contains(entry.Source));
    }

    private static IEnumerable<string> SourcesOf(FindingView finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return finding.Evidence.SelectMany(static evidence => evidence.Source);
    }
}
