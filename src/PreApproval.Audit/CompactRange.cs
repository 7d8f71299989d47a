using System.Buffers.Binary;
using System.Globalization;
using System.Numerics;
using System.Security.Cryptography;

namespace PreApproval.Audit;

/// <summary>The right edge of a growing tree: enough to append a leaf and to know the root. Immutable; at most 63 hashes; equal by value.</summary>
public sealed record CompactRange
{
    /// <summary>The tree without leaves.</summary>
    public static CompactRange Empty { get; } = new();

    /// <summary>Number of leaves.</summary>
    public long Size { get; private init; }

    /// <summary>Roots of the perfect subtrees, largest first: one for each bit set in <see cref="Size"/>.</summary>
    public IReadOnlyList<byte[]> Hashes { get; private init; } = [];

    /// <summary>The range with one leaf more.</summary>
    /// <exception cref="ArgumentException">A hash that is not 32 bytes long.</exception>
    public CompactRange Append(byte[] leafHash)
    {
        if (leafHash.Length != MerkleTree.HashLength)
        {
            throw new ArgumentException("A leaf hash has 32 bytes.", nameof(leafHash));
        }

        // adding one to the size carries over its trailing ones: each carry joins two subtrees of equal height
        int carries = BitOperations.TrailingZeroCount(~Size);
        int kept = Hashes.Count - carries;
        byte[] joined = [.. leafHash];
        for (int i = Hashes.Count - 1; i >= kept; i--)
        {
            joined = MerkleTree.NodeHash(Hashes[i], joined);
        }

        return new CompactRange { Size = checked(Size + 1), Hashes = [.. Hashes.Take(kept), joined] };
    }

    /// <summary>Root of the tree, RFC 9162 section 2.1.1; SHA-256 of nothing when empty.</summary>
    public byte[] Root()
    {
        if (Hashes.Count == 0)
        {
            return SHA256.HashData([]);
        }

        byte[] root = Hashes[^1];
        for (int i = Hashes.Count - 2; i >= 0; i--)
        {
            root = MerkleTree.NodeHash(Hashes[i], root);
        }

        return [.. root];
    }

    /// <summary>Size (8 bytes, big endian) and the hashes, for storage.</summary>
    public byte[] ToBytes()
    {
        var bytes = new byte[sizeof(long) + (Hashes.Count * MerkleTree.HashLength)];
        BinaryPrimitives.WriteInt64BigEndian(bytes, Size);
        for (int i = 0; i < Hashes.Count; i++)
        {
            Hashes[i].CopyTo(bytes, sizeof(long) + (i * MerkleTree.HashLength));
        }

        return bytes;
    }

    /// <summary>Reads what <see cref="ToBytes"/> wrote.</summary>
    /// <exception cref="FormatException">Too short, a negative size, or a number of hashes that does not fit the size.</exception>
    public static CompactRange FromBytes(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < sizeof(long))
        {
            throw new FormatException("A compact range begins with a size of 8 bytes.");
        }

        long size = BinaryPrimitives.ReadInt64BigEndian(bytes);
        int count = BitOperations.PopCount((ulong)size);
        if (size < 0 || bytes.Length != sizeof(long) + (count * MerkleTree.HashLength))
        {
            throw new FormatException($"The hashes do not fit a tree of {size.ToString(CultureInfo.InvariantCulture)} leaves.");
        }

        var hashes = new byte[count][];
        for (int i = 0; i < count; i++)
        {
            hashes[i] = bytes.Slice(sizeof(long) + (i * MerkleTree.HashLength), MerkleTree.HashLength).ToArray();
        }

        return new CompactRange { Size = size, Hashes = hashes };
    }

    public bool Equals(CompactRange? other) =>
        other is not null && Size == other.Size && Hashes.Zip(other.Hashes).All(pair => pair.First.AsSpan().SequenceEqual(pair.Second));

    public override int GetHashCode() =>
        Hashes.Count == 0 ? 0 : HashCode.Combine(Size, BinaryPrimitives.ReadInt32BigEndian(Hashes[^1]));
}
