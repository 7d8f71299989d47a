using System.Buffers.Binary;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Org.BouncyCastle.Math.EC.Rfc8032;

namespace PreApproval.Audit;

/// <summary>A public Ed25519 key with its name, the <c>vkey</c> of C2SP signed-note: who may be believed.</summary>
public sealed record NoteVerifier
{
    /// <summary>Signature type identifier byte of Ed25519 in C2SP signed-note.</summary>
    internal const byte Ed25519Type = 0x01;

    private readonly byte[] _publicKey;

    internal NoteVerifier(string name, byte[] publicKey)
    {
        (Name, _publicKey) = (name, publicKey);
        KeyId = IdOf(name, publicKey);
    }

    /// <summary>Schema-less URL by custom, for instance <c>example.com/log/4</c>. No spaces, no plus sign.</summary>
    public string Name { get; }

    /// <summary>First four bytes, big endian, of SHA-256(name || 0x0A || 0x01 || public key). An identifier, not a commitment.</summary>
    public uint KeyId { get; }

    /// <summary>Reads <c>name+keyid+base64(0x01 || public key)</c>.</summary>
    public static bool TryParse(string vkey, [NotNullWhen(true)] out NoteVerifier? verifier, out string error)
    {
        verifier = null;

        // base64 may have plus signs of its own, a name may not
        string[] parts = vkey.Split('+', 3);
        if (parts.Length != 3 || !NoteSyntax.IsKeyName(parts[0]))
        {
            error = "A verification key reads name+keyid+key, and the name has no spaces.";
            return false;
        }

        if (!NoteSyntax.TryBase64(parts[2], out byte[] key) || key.Length != 1 + Ed25519.PublicKeySize || key[0] != Ed25519Type)
        {
            error = "The key is not base64 of the byte 0x01 and 32 bytes (Ed25519).";
            return false;
        }

        byte[] publicKey = key[1..];
        if (!Ed25519.ValidatePublicKeyFull(publicKey, 0))
        {
            error = "The key is no valid Ed25519 public key.";
            return false;
        }

        var read = new NoteVerifier(parts[0], publicKey);
        if (!string.Equals(parts[1], read.KeyIdText, StringComparison.Ordinal))
        {
            error = $"The key id {parts[1]} does not belong to the name and key; it would be {read.KeyIdText}.";
            return false;
        }

        (verifier, error) = (read, string.Empty);
        return true;
    }

    /// <summary>Whether the signature (64 bytes, without key id) is this key's over the text. RFC 8032 section 5.1.7.</summary>
    public bool Verify(string text, ReadOnlySpan<byte> signature)
    {
        byte[] message = Encoding.UTF8.GetBytes(text);
        return signature.Length == Ed25519.SignatureSize
            && Ed25519.Verify(signature.ToArray(), 0, _publicKey, 0, message, 0, message.Length);
    }

    /// <summary>The <c>vkey</c>, to be given to whoever shall verify.</summary>
    public override string ToString() => $"{Name}+{KeyIdText}+{Convert.ToBase64String([Ed25519Type, .. _publicKey])}";

    public bool Equals(NoteVerifier? other) => other is not null && string.Equals(ToString(), other.ToString(), StringComparison.Ordinal);

    public override int GetHashCode() => HashCode.Combine(Name.GetHashCode(StringComparison.Ordinal), KeyId);

    private string KeyIdText => KeyId.ToString("x8", CultureInfo.InvariantCulture);

    private static uint IdOf(string name, byte[] publicKey) =>
        BinaryPrimitives.ReadUInt32BigEndian(SHA256.HashData([.. Encoding.UTF8.GetBytes(name), (byte)'\n', Ed25519Type, .. publicKey]));
}

/// <summary>A private Ed25519 key with its name. Keep the seed secret; everything else follows from it.</summary>
public sealed class NoteSigner
{
    /// <summary>Bytes of an Ed25519 seed, RFC 8032 section 5.1.5.</summary>
    public const int SeedLength = 32;

    private readonly byte[] _seed;

    /// <summary>The signer of a name with a seed of 32 bytes.</summary>
    /// <exception cref="ArgumentException">A name that is empty or has spaces, control characters or a plus sign; a seed of another length.</exception>
    public NoteSigner(string name, ReadOnlySpan<byte> seed)
    {
        if (!NoteSyntax.IsKeyName(name))
        {
            throw new ArgumentException("A key name is not empty and has no spaces, no control characters and no plus sign.", nameof(name));
        }

        if (seed.Length != SeedLength)
        {
            throw new ArgumentException("A seed has 32 bytes.", nameof(seed));
        }

        _seed = seed.ToArray();
        var publicKey = new byte[Ed25519.PublicKeySize];
        Ed25519.GeneratePublicKey(_seed, 0, publicKey, 0);
        Verifier = new NoteVerifier(name, publicKey);
    }

    /// <summary>The public half.</summary>
    public NoteVerifier Verifier { get; }

    /// <summary>A new secret from the system's generator, for the constructor and for safe keeping.</summary>
    public static byte[] NewSeed() => RandomNumberGenerator.GetBytes(SeedLength);

    /// <summary>Signs a text that ends in a newline. Ed25519 is deterministic: the same text gives the same signature.</summary>
    /// <exception cref="FormatException">A text that no note can carry.</exception>
    public NoteSignature Sign(string text)
    {
        if (NoteSyntax.TextFault(text) is { } fault)
        {
            throw new FormatException(fault);
        }

        byte[] message = Encoding.UTF8.GetBytes(text);
        var signature = new byte[Ed25519.SignatureSize];
        Ed25519.Sign(_seed, 0, message, 0, message.Length, signature, 0);
        return new NoteSignature(Verifier.Name, Verifier.KeyId, signature);
    }
}
