using System.Buffers.Binary;
using System.Diagnostics.CodeAnalysis;
using System.Text;
using System.Text.Unicode;

namespace PreApproval.Audit;

/// <summary>One signature line of a note.</summary>
/// <param name="KeyName">Name of the key that is said to have signed.</param>
/// <param name="KeyId">Its id.</param>
/// <param name="Signature">The bytes after the key id: 64 for Ed25519.</param>
public sealed record NoteSignature(string KeyName, uint KeyId, ReadOnlyMemory<byte> Signature)
{
    internal const string LineStart = "\u2014 ";

    /// <summary>The line of C2SP signed-note without its newline: em dash, name, base64 of key id and signature.</summary>
    public override string ToString()
    {
        var bytes = new byte[sizeof(uint) + Signature.Length];
        BinaryPrimitives.WriteUInt32BigEndian(bytes, KeyId);
        Signature.Span.CopyTo(bytes.AsSpan(sizeof(uint)));
        return $"{LineStart}{KeyName} {Convert.ToBase64String(bytes)}";
    }
}

/// <summary>Text with signatures: a note of C2SP signed-note. Nothing of the text may be believed before <see cref="IsSignedBy"/>.</summary>
public sealed class SignedNote
{
    /// <summary>Most signature lines that are read. The specification asks for at least 16.</summary>
    public const int MostSignatures = 64;

    /// <summary>Largest note that is read, in bytes.</summary>
    public const int LargestBytes = 1_000_000;

    private SignedNote(string text, IReadOnlyList<NoteSignature> signatures) => (Text, Signatures) = (text, signatures);

    /// <summary>The signed text with its final newline.</summary>
    public string Text { get; }

    /// <summary>At least one, in the order of the note.</summary>
    public IReadOnlyList<NoteSignature> Signatures { get; }

    /// <summary>Signs a text that ends in a newline.</summary>
    /// <exception cref="FormatException">A text that no note can carry.</exception>
    public static SignedNote Sign(string text, NoteSigner signer) => new(text, [signer.Sign(text)]);

    /// <summary>The same text with one signature line more: a cosignature, or a new key beside the old one.</summary>
    public SignedNote AndSign(NoteSigner signer) => new(Text, [.. Signatures, signer.Sign(Text)]);

    /// <summary>Reads a note without verifying any signature. False with the reason when it is malformed.</summary>
    public static bool TryParse(ReadOnlySpan<byte> utf8, [NotNullWhen(true)] out SignedNote? note, out string error)
    {
        note = null;
        if (utf8.Length > LargestBytes || !Utf8.IsValid(utf8))
        {
            error = "A note is valid UTF-8 of at most 1 MB.";
            return false;
        }

        string all = Encoding.UTF8.GetString(utf8);
        int blankLine = all.LastIndexOf("\n\n", StringComparison.Ordinal);
        if (NoteSyntax.HasForbiddenControl(all) || blankLine < 0 || !all.EndsWith('\n') || blankLine + 2 == all.Length)
        {
            error = "A note is a text, an empty line and signature lines, without control characters but newline.";
            return false;
        }

        string[] lines = all[(blankLine + 2)..^1].Split('\n');
        if (lines.Length > MostSignatures)
        {
            error = "The note has too many signature lines.";
            return false;
        }

        var signatures = new List<NoteSignature>(lines.Length);
        foreach (string line in lines)
        {
            if (!TryParseSignature(line, out NoteSignature? signature))
            {
                error = "A signature line reads: em dash, space, key name, space, base64.";
                return false;
            }

            signatures.Add(signature);
        }

        note = new SignedNote(all[..(blankLine + 1)], signatures);
        error = string.Empty;
        return true;
    }

    /// <summary>
    /// Whether the key signed this text. Lines of other keys are ignored, as the specification demands; of several lines
    /// with this key's name and id, every one must verify.
    /// </summary>
    public bool IsSignedBy(NoteVerifier key)
    {
        NoteSignature[] own = [.. Signatures.Where(s => s.KeyId == key.KeyId && string.Equals(s.KeyName, key.Name, StringComparison.Ordinal))];
        return own.Length > 0 && own.All(s => key.Verify(Text, s.Signature.Span));
    }

    /// <summary>The note as text; UTF-8 of it is what <see cref="TryParse"/> reads.</summary>
    public override string ToString() => Text + "\n" + string.Concat(Signatures.Select(signature => signature + "\n"));

    private static bool TryParseSignature(string line, [NotNullWhen(true)] out NoteSignature? signature)
    {
        signature = null;
        if (!line.StartsWith(NoteSignature.LineStart, StringComparison.Ordinal))
        {
            return false;
        }

        string[] parts = line[NoteSignature.LineStart.Length..].Split(' ');
        if (parts.Length != 2 || !NoteSyntax.IsKeyName(parts[0]) || !NoteSyntax.TryBase64(parts[1], out byte[] bytes) || bytes.Length <= sizeof(uint))
        {
            return false;
        }

        signature = new NoteSignature(parts[0], BinaryPrimitives.ReadUInt32BigEndian(bytes), bytes.AsMemory(sizeof(uint)));
        return true;
    }
}
