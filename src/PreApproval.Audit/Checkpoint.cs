using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Security.Cryptography;

namespace PreApproval.Audit;

/// <summary>What a log commits to: its name, how many events it has, and the root over them. The text of C2SP tlog-checkpoint.</summary>
/// <remarks>Extension lines are refused: our logs write none, and nobody can audit them.</remarks>
public sealed record Checkpoint
{
    private readonly byte[] _rootHash;

    /// <summary>A checkpoint of a log.</summary>
    /// <param name="origin">Schema-less URL of the log by custom; one line, not empty; also the name of the key that signs.</param>
    /// <param name="size">Number of leaves, from 0.</param>
    /// <param name="rootHash">Root of RFC 9162 section 2.1.1 over them, 32 bytes.</param>
    /// <exception cref="ArgumentException">An origin, size or root that no checkpoint can have.</exception>
    public Checkpoint(string origin, long size, byte[] rootHash)
    {
        if (!NoteSyntax.IsKeyName(origin))
        {
            throw new ArgumentException("An origin is not empty and has no spaces, no control characters and no plus sign.", nameof(origin));
        }

        ArgumentOutOfRangeException.ThrowIfNegative(size);
        if (rootHash.Length != MerkleTree.HashLength)
        {
            throw new ArgumentException("A root hash has 32 bytes.", nameof(rootHash));
        }

        (Origin, Size, _rootHash) = (origin, size, [.. rootHash]);
    }

    public string Origin { get; }

    /// <summary>Number of leaves.</summary>
    public long Size { get; }

    /// <summary>Root over the leaves: 32 bytes, a copy.</summary>
    public byte[] RootHash => [.. _rootHash];

    /// <summary>Reads the text of a note whose signature has been verified. False with the reason when it is no checkpoint.</summary>
    public static bool TryParse(string text, [NotNullWhen(true)] out Checkpoint? checkpoint, out string error)
    {
        checkpoint = null;
        string[] lines = text.Split('\n');
        if (lines.Length != 4 || lines[3].Length > 0 || !NoteSyntax.IsKeyName(lines[0]))
        {
            error = "A checkpoint has three lines: origin, size, root hash.";
            return false;
        }

        if (!long.TryParse(lines[1], NumberStyles.None, CultureInfo.InvariantCulture, out long size)
            || !string.Equals(size.ToString(CultureInfo.InvariantCulture), lines[1], StringComparison.Ordinal))
        {
            error = "A checkpoint's size is a decimal number without leading zeros.";
            return false;
        }

        if (!NoteSyntax.TryBase64(lines[2], out byte[] root) || root.Length != MerkleTree.HashLength)
        {
            error = "A checkpoint's root hash is base64 of 32 bytes.";
            return false;
        }

        if (size == 0 && !root.AsSpan().SequenceEqual(SHA256.HashData([])))
        {
            error = "The root of the empty log is the SHA-256 of nothing.";
            return false;
        }

        (checkpoint, error) = (new Checkpoint(lines[0], size, root), string.Empty);
        return true;
    }

    /// <summary>
    /// Opens a signed checkpoint: the key must have signed the note and the log must bear the key's name. False with the reason otherwise.
    /// </summary>
    public static bool TryOpen(ReadOnlySpan<byte> note, NoteVerifier key, [NotNullWhen(true)] out Checkpoint? checkpoint, out string error)
    {
        checkpoint = null;
        if (!SignedNote.TryParse(note, out SignedNote? signed, out error))
        {
            return false;
        }

        if (!signed.IsSignedBy(key))
        {
            error = $"The checkpoint bears no valid signature of {key.Name}.";
            return false;
        }

        if (!TryParse(signed.Text, out Checkpoint? read, out error))
        {
            return false;
        }

        if (!string.Equals(read.Origin, key.Name, StringComparison.Ordinal))
        {
            error = $"The checkpoint is of the log {read.Origin}, not of {key.Name}.";
            return false;
        }

        checkpoint = read;
        return true;
    }

    /// <summary>Signs the checkpoint. Before that, prove it consistent with the last one signed: a log that signs two histories has signed its own indictment.</summary>
    public SignedNote Sign(NoteSigner signer) => SignedNote.Sign(ToString(), signer);

    /// <summary>Origin, size and base64 root hash, each line with its newline.</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{Origin}\n{Size}\n{Convert.ToBase64String(_rootHash)}\n");

    public bool Equals(Checkpoint? other) => other is not null && string.Equals(ToString(), other.ToString(), StringComparison.Ordinal);

    public override int GetHashCode() => ToString().GetHashCode(StringComparison.Ordinal);
}
