using CsCheck;

namespace PreApproval.Audit.Tests;

/// <summary>The fast tree against the recursive definitions of RFC 9162, and what tampering must do.</summary>
public sealed class MerkleTreeProperties
{
    private const int Trees = 400;

    /// <summary>Distinct leaves: each begins with its index.</summary>
    private static readonly Gen<byte[][]> TreeGen =
        Gen.Byte.Array[0, 20].Array[1, 70].Select(leaves => leaves.Select((leaf, i) => (byte[])[(byte)i, .. leaf]).ToArray());

    private static readonly Gen<(byte[][] Leaves, int At)> LeafGen = TreeGen.SelectMany(leaves => Gen.Int[0, leaves.Length - 1].Select(at => (leaves, at)));

    private static readonly Gen<(byte[][] Leaves, int Before)> GrowthGen =
        TreeGen.Where(leaves => leaves.Length > 1).SelectMany(leaves => Gen.Int[1, leaves.Length - 1].Select(before => (leaves, before)));

    [Fact]
    public void Root_eq_MTH() => TreeGen.Sample(
        leaves => ReferenceTree.Root(leaves).AsSpan().SequenceEqual(MerkleTree.Root(Hashes(leaves))), iter: Trees);

    [Fact]
    public void InclusionProof_eq_PATH() => LeafGen.Sample(
        x => Same(ReferenceTree.Path(x.At, x.Leaves), MerkleTree.InclusionProof(Hashes(x.Leaves), x.At)), iter: Trees);

    [Fact]
    public void ConsistencyProof_eq_PROOF() => LeafGen.Sample(
        x => Same(ReferenceTree.Proof(x.At + 1, x.Leaves), MerkleTree.ConsistencyProof(Hashes(x.Leaves), x.At + 1)), iter: Trees);

    [Fact]
    public void VerifyInclusion_of_InclusionProof_eq_true() => LeafGen.Sample(
        x => MerkleTree.VerifyInclusion(MerkleTree.LeafHash(x.Leaves[x.At]), x.At, x.Leaves.Length, ReferenceTree.Path(x.At, x.Leaves), ReferenceTree.Root(x.Leaves)), iter: Trees);

    [Fact]
    public void VerifyConsistency_of_ConsistencyProof_eq_true() => LeafGen.Sample(
        x => MerkleTree.VerifyConsistency(x.At + 1, x.Leaves.Length, ReferenceTree.Root(x.Leaves[..(x.At + 1)]), ReferenceTree.Root(x.Leaves), ReferenceTree.Proof(x.At + 1, x.Leaves)), iter: Trees);

    [Fact]
    public void VerifyInclusion_of_flipped_bit_eq_false() => Gen.Select(LeafGen, Gen.Int[0, int.MaxValue]).Sample((x, bit) =>
    {
        byte[][] claim = [MerkleTree.LeafHash(x.Leaves[x.At]), ReferenceTree.Root(x.Leaves), .. ReferenceTree.Path(x.At, x.Leaves)];
        Flip(claim, bit);
        return !MerkleTree.VerifyInclusion(claim[0], x.At, x.Leaves.Length, claim[2..], claim[1]);
    }, iter: Trees);

    [Fact]
    public void VerifyInclusion_of_another_index_eq_false() => Gen.Select(LeafGen, Gen.Int[-1, 71]).Where((x, other) => other != x.At).Sample(
        (x, other) => !MerkleTree.VerifyInclusion(MerkleTree.LeafHash(x.Leaves[x.At]), other, x.Leaves.Length, ReferenceTree.Path(x.At, x.Leaves), ReferenceTree.Root(x.Leaves)), iter: Trees);

    [Fact]
    public void VerifyInclusion_of_longer_or_shorter_proof_eq_false() => LeafGen.Sample(x =>
    {
        byte[] leaf = MerkleTree.LeafHash(x.Leaves[x.At]);
        byte[] root = ReferenceTree.Root(x.Leaves);
        byte[][] path = ReferenceTree.Path(x.At, x.Leaves);
        return !MerkleTree.VerifyInclusion(leaf, x.At, x.Leaves.Length, [.. path, root], root)
            && !MerkleTree.VerifyInclusion(leaf, x.At, x.Leaves.Length, [root, .. path], root)
            && (path.Length == 0 || !MerkleTree.VerifyInclusion(leaf, x.At, x.Leaves.Length, path[..^1], root))
            && (path.Length == 0 || !MerkleTree.VerifyInclusion(leaf, x.At, x.Leaves.Length, path[1..], root));
    }, iter: Trees);

    [Fact]
    public void VerifyConsistency_of_flipped_bit_eq_false() => Gen.Select(GrowthGen, Gen.Int[0, int.MaxValue]).Sample((x, bit) =>
    {
        byte[][] claim = [ReferenceTree.Root(x.Leaves[..x.Before]), ReferenceTree.Root(x.Leaves), .. ReferenceTree.Proof(x.Before, x.Leaves)];
        Flip(claim, bit);
        return !MerkleTree.VerifyConsistency(x.Before, x.Leaves.Length, claim[0], claim[1], claim[2..]);
    }, iter: Trees);

    /// <summary>A keeper of the old root sees any rewrite of what it covered, whatever honest-looking proof comes with the new root.</summary>
    [Fact]
    public void VerifyConsistency_of_rewritten_past_eq_false() => Gen.Select(GrowthGen, Gen.Int[0, int.MaxValue]).Sample((x, seed) =>
    {
        byte[] seen = ReferenceTree.Root(x.Leaves[..x.Before]);
        byte[][] rewritten = [.. x.Leaves];
        rewritten[seed % x.Before] = [.. rewritten[seed % x.Before], 0xFF];
        return !MerkleTree.VerifyConsistency(x.Before, rewritten.Length, seen, ReferenceTree.Root(rewritten), ReferenceTree.Proof(x.Before, rewritten));
    }, iter: Trees);

    [Fact]
    public void Verify_of_hash_of_another_length_eq_false() => Gen.Select(GrowthGen, Gen.Int[0, 40].Where(length => length != MerkleTree.HashLength)).Sample((x, length) =>
    {
        byte[] wrong = new byte[length];
        byte[] first = ReferenceTree.Root(x.Leaves[..x.Before]);
        byte[] second = ReferenceTree.Root(x.Leaves);
        byte[][] proof = ReferenceTree.Proof(x.Before, x.Leaves);
        byte[][] path = ReferenceTree.Path(0, x.Leaves);
        return !MerkleTree.VerifyConsistency(x.Before, x.Leaves.Length, wrong, second, proof)
            && !MerkleTree.VerifyConsistency(x.Before, x.Leaves.Length, first, wrong, proof)
            && !MerkleTree.VerifyConsistency(x.Before, x.Leaves.Length, first, second, [wrong, .. proof[1..]])
            && !MerkleTree.VerifyInclusion(wrong, 0, x.Leaves.Length, path, second)
            && !MerkleTree.VerifyInclusion(MerkleTree.LeafHash(x.Leaves[0]), 0, x.Leaves.Length, path, wrong)
            && !MerkleTree.VerifyInclusion(MerkleTree.LeafHash(x.Leaves[0]), 0, x.Leaves.Length, [wrong, .. path[1..]], second);
    }, iter: Trees);

    [Fact]
    public void CompactRange_Root_eq_MTH() => TreeGen.Sample(leaves =>
    {
        CompactRange range = CompactRange.Empty;
        for (int size = 0; size < leaves.Length; size++)
        {
            range = range.Append(MerkleTree.LeafHash(leaves[size]));
        }

        return range.Size == leaves.Length && range.Root().AsSpan().SequenceEqual(ReferenceTree.Root(leaves));
    }, iter: Trees);

    [Fact]
    public void CompactRange_FromBytes_of_ToBytes_eq_itself() => TreeGen.Sample(leaves =>
    {
        CompactRange range = Hashes(leaves).Aggregate(CompactRange.Empty, (grown, hash) => grown.Append(hash));
        CompactRange read = CompactRange.FromBytes(range.ToBytes());
        return read == range && read.Root().AsSpan().SequenceEqual(ReferenceTree.Root(leaves));
    }, iter: Trees);

    private static byte[][] Hashes(byte[][] leaves) => [.. leaves.Select(leaf => MerkleTree.LeafHash(leaf))];

    private static bool Same(byte[][] expected, IReadOnlyList<byte[]> actual) =>
        expected.Length == actual.Count && expected.Zip(actual).All(pair => pair.First.AsSpan().SequenceEqual(pair.Second));

    /// <summary>Flips one bit of one hash; the hash is copied first, for a leaf hash may stand in two places.</summary>
    private static void Flip(byte[][] hashes, int bit)
    {
        int which = bit % hashes.Length;
        int place = bit / hashes.Length % (8 * MerkleTree.HashLength);
        hashes[which] = [.. hashes[which]];
        hashes[which][place / 8] ^= (byte)(1 << (place % 8));
    }
}
