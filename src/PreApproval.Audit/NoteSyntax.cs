namespace PreApproval.Audit;

/// <summary>The characters of C2SP signed-note, section Format.</summary>
internal static class NoteSyntax
{
    public static bool IsKeyName(string name) =>
        name.Length > 0 && IsUnicode(name) && !name.Any(c => char.IsWhiteSpace(c) || char.IsControl(c) || c == '+');

    /// <summary>What keeps a text from being a note's, or null.</summary>
    public static string? TextFault(string text)
    {
        if (!text.EndsWith('\n'))
        {
            return "A note's text ends in a newline.";
        }

        return HasForbiddenControl(text) ? "A note has no control characters but newline."
            : IsUnicode(text) ? null
            : "A note has no lone surrogates.";
    }

    public static bool HasForbiddenControl(string text) => text.Any(c => c < ' ' && c != '\n');

    /// <summary>RFC 4648 section 4 in its one canonical form: padded, no white space, unused bits zero.</summary>
    public static bool TryBase64(string text, out byte[] bytes)
    {
        var buffer = new byte[text.Length];
        bool ok = Convert.TryFromBase64String(text, buffer, out int length)
            && string.Equals(Convert.ToBase64String(buffer, 0, length), text, StringComparison.Ordinal);
        bytes = ok ? buffer[..length] : [];
        return ok;
    }

    private static bool IsUnicode(string text)
    {
        for (int i = 0; i < text.Length; i++)
        {
            if (!char.IsSurrogate(text[i]))
            {
                continue;
            }

            if (!char.IsSurrogatePair(text, i))
            {
                return false;
            }

            i++;
        }

        return true;
    }
}
