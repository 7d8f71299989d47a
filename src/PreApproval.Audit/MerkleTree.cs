using System.Numerics;
using System.Security.Cryptography;

namespace PreApproval.Audit;

/// <summary>Hashes, proofs and verification of the Merkle tree of RFC 9162 section 2.1 (the same tree as RFC 6962) with SHA-256.</summary>
/// <remarks>
/// Verification answers false to whatever does not prove the claim, including hashes that are not 32 bytes long and a consistency
/// proof from the empty tree, which proves nothing. Building a proof for a leaf or a size that is not there is a programmer's fault.
/// </remarks>
public static class MerkleTree
{
    /// <summary>Bytes of a SHA-256 hash.</summary>
    public const int HashLength = 32;

    private const byte LeafPrefix = 0x00;
    private const byte NodePrefix = 0x01;

    /// <summary>SHA-256(0x00 || leaf), RFC 9162 section 2.1.1.</summary>
    public static byte[] LeafHash(ReadOnlySpan<byte> leaf)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData([LeafPrefix]);
        hash.AppendData(leaf);
        return hash.GetHashAndReset();
    }

    /// <summary>SHA-256(0x01 || left || right), RFC 9162 section 2.1.1.</summary>
    /// <exception cref="ArgumentException">A hash that is not 32 bytes long.</exception>
    public static byte[] NodeHash(ReadOnlySpan<byte> left, ReadOnlySpan<byte> right)
    {
        if (left.Length != HashLength || right.Length != HashLength)
        {
            throw new ArgumentException("A node has two hashes of 32 bytes.", left.Length != HashLength ? nameof(left) : nameof(right));
        }

        Span<byte> node = stackalloc byte[1 + (2 * HashLength)];
        node[0] = NodePrefix;
        left.CopyTo(node[1..]);
        right.CopyTo(node[(1 + HashLength)..]);
        return SHA256.HashData(node);
    }

    /// <summary>Root over leaf hashes, MTH of RFC 9162 section 2.1.1; SHA-256 of nothing for no leaves.</summary>
    public static byte[] Root(IReadOnlyList<byte[]> leafHashes)
    {
        IReadOnlyList<byte[]> level = leafHashes;
        while (level.Count > 1)
        {
            level = Above(level);
        }

        return level.Count == 0 ? SHA256.HashData([]) : level[0];
    }

    /// <summary>
    /// Inclusion proof, PATH of RFC 9162 section 2.1.3.1, of the leaf at <paramref name="index"/> in the tree over all given
    /// leaf hashes: from the leaf upwards, at most 63 hashes.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">No leaf at the index.</exception>
    public static IReadOnlyList<byte[]> InclusionProof(IReadOnlyList<byte[]> leafHashes, long index)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(index);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(index, leafHashes.Count);
        List<byte[]> proof = [];
        Climb(leafHashes, (int)index, proof);
        return proof;
    }

    /// <summary>Consistency proof, PROOF of RFC 9162 section 2.1.4.1, from the first <paramref name="firstSize"/> leaves to all of them; empty when both are the same tree.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A first size below 1 or above the number of leaves.</exception>
    public static IReadOnlyList<byte[]> ConsistencyProof(IReadOnlyList<byte[]> leafHashes, long firstSize)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(firstSize, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(firstSize, leafHashes.Count);
        List<byte[]> proof = [];
        if (firstSize == leafHashes.Count)
        {
            return proof;
        }

        // the largest perfect subtree that ends where the old tree ended: both trees have it
        int height = BitOperations.TrailingZeroCount(firstSize);
        IReadOnlyList<byte[]> level = leafHashes;
        for (int i = 0; i < height; i++)
        {
            level = Above(level);
        }

        int last = (int)((firstSize - 1) >> height);
        if (last > 0)
        {
            proof.Add(level[last]); // when it is the whole old tree, the verifier has it already
        }

        Climb(level, last, proof);
        return proof;
    }

    /// <summary>Verification of RFC 9162 section 2.1.3.2. <paramref name="index"/> counts from 0; <paramref name="size"/> is the number of leaves under <paramref name="root"/>.</summary>
    public static bool VerifyInclusion(byte[] leafHash, long index, long size, IReadOnlyList<byte[]> proof, byte[] root)
    {
        if (index < 0 || index >= size || leafHash.Length != HashLength || root.Length != HashLength || proof.Any(hash => hash.Length != HashLength))
        {
            return false;
        }

        (long node, long last) = (index, size - 1);
        byte[] computed = leafHash;
        foreach (byte[] sibling in proof)
        {
            if (last == 0)
            {
                return false;
            }

            if (IsRight(node) || node == last)
            {
                computed = NodeHash(sibling, computed);
                (node, last) = SkipMissingSiblings(node, last);
            }
            else
            {
                computed = NodeHash(computed, sibling);
            }

            (node, last) = (node >> 1, last >> 1);
        }

        return last == 0 && computed.AsSpan().SequenceEqual(root);
    }

    /// <summary>Verification of RFC 9162 section 2.1.4.2: the tree of <paramref name="secondSize"/> leaves begins with the whole tree of <paramref name="firstSize"/> leaves.</summary>
    /// <remarks>Equal sizes need equal roots and an empty proof; nothing is computed from the roots then, so their length is not looked at.</remarks>
    public static bool VerifyConsistency(long firstSize, long secondSize, byte[] firstRoot, byte[] secondRoot, IReadOnlyList<byte[]> proof)
    {
        if (firstSize < 1 || firstSize > secondSize)
        {
            return false;
        }

        if (firstSize == secondSize)
        {
            return proof.Count == 0 && firstRoot.AsSpan().SequenceEqual(secondRoot);
        }

        if (firstRoot.Length != HashLength || secondRoot.Length != HashLength || proof.Count == 0 || proof.Any(hash => hash.Length != HashLength))
        {
            return false;
        }

        byte[][] path = BitOperations.IsPow2(firstSize) ? [firstRoot, .. proof] : [.. proof];
        int height = BitOperations.TrailingZeroCount(firstSize);
        (long node, long last) = ((firstSize - 1) >> height, (secondSize - 1) >> height);
        (byte[] first, byte[] second) = (path[0], path[0]);
        foreach (byte[] sibling in path.AsSpan(1))
        {
            if (last == 0)
            {
                return false;
            }

            if (IsRight(node) || node == last)
            {
                first = NodeHash(sibling, first);
                second = NodeHash(sibling, second);
                (node, last) = SkipMissingSiblings(node, last);
            }
            else
            {
                second = NodeHash(second, sibling);
            }

            (node, last) = (node >> 1, last >> 1);
        }

        return last == 0 && first.AsSpan().SequenceEqual(firstRoot) && second.AsSpan().SequenceEqual(secondRoot);
    }

    private static bool IsRight(long node) => (node & 1) == 1;

    /// <summary>On the right edge, the levels at which the node stands alone and rises unhashed.</summary>
    private static (long Node, long Last) SkipMissingSiblings(long node, long last)
    {
        while (!IsRight(node) && node != 0)
        {
            (node, last) = (node >> 1, last >> 1);
        }

        return (node, last);
    }

    /// <summary>Adds the siblings on the way from a node of a level to the root.</summary>
    private static void Climb(IReadOnlyList<byte[]> level, int node, List<byte[]> proof)
    {
        while (level.Count > 1)
        {
            int sibling = node ^ 1;
            if (sibling < level.Count)
            {
                proof.Add(level[sibling]);
            }

            level = Above(level);
            node >>= 1;
        }
    }

    /// <summary>The next level up; a last node without sibling rises as it is.</summary>
    private static byte[][] Above(IReadOnlyList<byte[]> level)
    {
        var above = new byte[(level.Count + 1) / 2][];
        for (int i = 0; i < above.Length; i++)
        {
            above[i] = (2 * i) + 1 < level.Count ? NodeHash(level[2 * i], level[(2 * i) + 1]) : level[2 * i];
        }

        return above;
    }
}
