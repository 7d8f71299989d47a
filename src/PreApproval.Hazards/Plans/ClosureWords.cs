using System.Text.RegularExpressions;

namespace PreApproval.Hazards.Plans;

/// <summary>Reads the closure of a vessel as typed.</summary>
internal static partial class ClosureWords
{
    /// <summary>
    /// The vent that the words name, or null: it closes. Only whole phrases count, and any word that may shut the way out again
    /// (a valve, a tap, closed, no, removed) means closed: what is unclear is closed, which is the cautious reading.
    /// </summary>
    public static Closure? Vent(string? closure)
    {
        if (closure is null || ShutsAgain().IsMatch(closure))
        {
            return null;
        }

        return Balloon().IsMatch(closure) ? Closure.Balloon
            : Bubbler().IsMatch(closure) ? Closure.Bubbler
            : Needle().IsMatch(closure) ? Closure.Needle
            : null;
    }

    public static string Name(Closure closure) => closure switch
    {
        Closure.Stopper => "stopper",
        Closure.Septum => "septum",
        Closure.Balloon => "balloon",
        Closure.Bubbler => "bubbler",
        Closure.Needle => "needle",
        Closure.Plug => "plug",
        Closure.Cap => "cap",
    };

    [GeneratedRegex(@"\b(valves?|taps?|stopcocks?|clamp(ed)?|closed|shut|sealed|blocked|plugged|no|not|non|none|never|without|removed?|removable|instead|replaced|optional|before|after|until|later|if)\b", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex ShutsAgain();

    [GeneratedRegex(@"\bballoon\b", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex Balloon();

    [GeneratedRegex(@"\b(bubbler|drying tube)\b", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex Bubbler();

    [GeneratedRegex(@"^\s*needle\s*$|\b(vent(ing)? needle|needle vent|open needle|septum (with|and) (a )?needle|vented (by|through) a needle)\b", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex Needle();
}
