namespace PreApproval.Hazards.Substances;

/// <summary>What names of substances are compared by: small letters, without spaces and hyphens.</summary>
public static class NameSpelling
{
    /// <summary>The spelling of a name.</summary>
    public static string Of(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return Catalog.Spelling(name);
    }

    /// <summary>True where two names differ in case, spaces and hyphens only.</summary>
    public static bool Same(string one, string other) => string.Equals(Of(one), Of(other), StringComparison.Ordinal);

    /// <summary>True for the characters that count.</summary>
    internal static bool Counts(char c) => !char.IsWhiteSpace(c) && c is not ('-' or '\u2010' or '\u2011' or '\u2012' or '\u2013');
}
