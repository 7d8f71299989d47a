namespace PreApproval.Documents.Reading;

/// <summary>The unit a person probably meant by another spelling.</summary>
internal static class UnitHint
{
    private static readonly Dictionary<string, string> Usual = new(StringComparer.OrdinalIgnoreCase)
    {
        ["cc"] = "mL",
        ["cm3"] = "mL",
        ["cm³"] = "mL",
        ["dm3"] = "L",
        ["litre"] = "L",
        ["liter"] = "L",
        ["c"] = "°C",
        ["deg c"] = "°C",
        ["celsius"] = "°C",
        ["kelvin"] = "K",
        ["barg"] = "bar(g)",
        ["bar g"] = "bar(g)",
        ["bar(a)"] = "bar",
        ["bara"] = "bar",
        ["psig"] = "psi(g)",
        ["psi g"] = "psi(g)",
        ["gram"] = "g",
        ["grams"] = "g",
        ["gr"] = "g",
        ["m"] = "mol/L",
        ["mmol/ml"] = "mol/L",
        ["%"] = "wt%",
        ["w%"] = "wt%",
        ["w/w%"] = "wt%",
        ["% w/w"] = "wt%",
        ["v%"] = "vol%",
        ["% v/v"] = "vol%",
        ["sec"] = "s",
        ["second"] = "s",
        ["seconds"] = "s",
        ["minute"] = "min",
        ["minutes"] = "min",
        ["hr"] = "h",
        ["hour"] = "h",
        ["hours"] = "h",
        ["day"] = "d",
        ["days"] = "d",
    };

    /// <summary>Null when nothing allowed is near.</summary>
    public static string? Of(string spelling, MemberUnits units) =>
        Usual.TryGetValue(spelling.Trim(), out string? usual) && units.Symbols.Contains(usual, StringComparer.Ordinal)
            ? usual
            : units.Symbols.FirstOrDefault(symbol => string.Equals(symbol, spelling.Trim(), StringComparison.OrdinalIgnoreCase));
}
