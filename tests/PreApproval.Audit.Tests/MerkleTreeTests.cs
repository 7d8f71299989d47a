using System.Text;

namespace PreApproval.Audit.Tests;

/// <summary>Values of transparency-dev/merkle at commit 417fb0c3 (Apache-2.0): rfc6962/rfc6962_test.go and testonly/constants.go.</summary>
public sealed class MerkleTreeTests
{
    internal static readonly byte[][] Leaves =
        [.. new[] { "", "00", "10", "2021", "3031", "40414243", "5051525354555657", "606162636465666768696a6b6c6d6e6f" }.Select(Convert.FromHexString)];

    internal static readonly byte[][] LeafHashes = [.. Leaves.Select(leaf => MerkleTree.LeafHash(leaf))];

    internal static readonly string[] Roots =
    [
        "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
        "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
        "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
        "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
        "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
        "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
        "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
        "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
        "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
    ];

    [Theory]
    [InlineData("", "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d")]
    [InlineData("L123456", "395aa064aa4c29f7010acfe3f25db9485bbd4b91897b6ad7ad547639252b4d56")]
    public void LeafHash_PublishedLeaf_PublishedHash(string leaf, string expected) =>
        Assert.Equal(expected, Convert.ToHexStringLower(MerkleTree.LeafHash(Encoding.ASCII.GetBytes(leaf))));

    [Theory]
    [InlineData(0, "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d")]
    [InlineData(1, "96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7")]
    [InlineData(2, "0298d122906dcfc10892cb53a73992fc5b9f493ea4c9badb27b791b4127a7fe7")]
    [InlineData(3, "07506a85fd9dd2f120eb694f86011e5bb4662e5c415a62917033d4a9624487e7")]
    [InlineData(4, "bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b")]
    [InlineData(5, "4271a26be0d8a84f0bd54c8c302e7cb3a3b5d1fa6780a40bcce2873477dab658")]
    [InlineData(6, "b08693ec2e721597130641e8211e7eedccb4c26413963eee6c1e2ed16ffb1a5f")]
    [InlineData(7, "46f6ffadd3d06a09ff3c5860d2755c8b9819db7df44251788c7d8e3180de8eb1")]
    public void LeafHash_LeavesOfThePublishedTree_PublishedHashes(int index, string expected) =>
        Assert.Equal(expected, Convert.ToHexStringLower(LeafHashes[index]));

    /// <summary>The publisher's test hashes five-byte strings as children; a node of ours takes hashes only, so the bytes are hashed with its prefix here.</summary>
    [Fact]
    public void NodeHash_PublishedChildren_PrefixedSha256()
    {
        byte[] published = System.Security.Cryptography.SHA256.HashData([0x01, .. "N123"u8, .. "N456"u8]);
        Assert.Equal("aa217fe888e47007fa15edab33c2b492a722cb106c64667fc2b044444de66bbb", Convert.ToHexStringLower(published));
        Assert.Equal(Roots[2], Convert.ToHexStringLower(MerkleTree.NodeHash(LeafHashes[0], LeafHashes[1])));
    }

    [Theory]
    [InlineData(31, 32)]
    [InlineData(32, 33)]
    [InlineData(0, 32)]
    public void NodeHash_HashOfAnotherLength_Throws(int left, int right) =>
        Assert.Throws<ArgumentException>(() => MerkleTree.NodeHash(new byte[left], new byte[right]));

    [Fact]
    public void Root_EachSizeOfThePublishedTree_PublishedRoot()
    {
        for (int size = 0; size <= Leaves.Length; size++)
        {
            Assert.Equal(Roots[size], Convert.ToHexStringLower(MerkleTree.Root(LeafHashes[..size])));
        }
    }

    /// <summary>Shape: the example of RFC 6962 section 2.1.3. Hashes: the published leaves, first four bytes of each node.</summary>
    [Theory]
    [InlineData(0, "96a296d2 5f083f0a 837dbb15")]
    [InlineData(3, "0298d122 fac54203 837dbb15")]
    [InlineData(4, "4271a26b b08693ec d37ee418")]
    [InlineData(6, "0ebc5d34 d37ee418")]
    public void InclusionProof_ExampleOfRfc6962_PublishedPath(int index, string expected)
    {
        IReadOnlyList<byte[]> proof = MerkleTree.InclusionProof(LeafHashes[..7], index);
        Assert.Equal(expected, Short(proof));
        Assert.True(MerkleTree.VerifyInclusion(LeafHashes[index], index, 7, proof, Convert.FromHexString(Roots[7])));
    }

    [Theory]
    [InlineData(3, "0298d122 07506a85 fac54203 837dbb15")]
    [InlineData(4, "837dbb15")]
    [InlineData(6, "0ebc5d34 b08693ec d37ee418")]
    public void ConsistencyProof_ExampleOfRfc6962_PublishedProof(int firstSize, string expected)
    {
        IReadOnlyList<byte[]> proof = MerkleTree.ConsistencyProof(LeafHashes[..7], firstSize);
        Assert.Equal(expected, Short(proof));
        Assert.True(MerkleTree.VerifyConsistency(firstSize, 7, Convert.FromHexString(Roots[firstSize]), Convert.FromHexString(Roots[7]), proof));
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(8)]
    public void InclusionProof_NoSuchLeaf_Throws(int index) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MerkleTree.InclusionProof(LeafHashes, index));

    [Theory]
    [InlineData(0)]
    [InlineData(9)]
    public void ConsistencyProof_NoSuchSize_Throws(int firstSize) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MerkleTree.ConsistencyProof(LeafHashes, firstSize));

    public static TheoryData<ProofVector> Inclusion() => [.. ProofVectors.TypedInclusion, .. ProofVectors.Published(inclusion: true)];

    [Theory]
    [MemberData(nameof(Inclusion))]
    public void VerifyInclusion_PublishedVector_PublishedAnswer(ProofVector vector) => Assert.Equal(vector.Valid, MerkleTree.VerifyInclusion(
        Convert.FromBase64String(vector.FirstHash), vector.First, vector.Second, [.. vector.Proof.Select(Convert.FromBase64String)], Convert.FromBase64String(vector.SecondHash)));

    public static TheoryData<ProofVector> Consistency() => [.. ProofVectors.TypedConsistency, .. ProofVectors.Published(inclusion: false)];

    [Theory]
    [MemberData(nameof(Consistency))]
    public void VerifyConsistency_PublishedVector_PublishedAnswer(ProofVector vector) => Assert.Equal(vector.Valid, MerkleTree.VerifyConsistency(
        vector.First, vector.Second, Convert.FromBase64String(vector.FirstHash), Convert.FromBase64String(vector.SecondHash), [.. vector.Proof.Select(Convert.FromBase64String)]));

    [Fact]
    public void ProofVectors_TypedAndPublished_AreAllThere()
    {
        ProofVector[] typed = [.. ProofVectors.TypedInclusion, .. ProofVectors.TypedConsistency];
        Assert.True(typed.Length >= 12);
        Assert.Contains(typed, vector => vector.Valid);
        Assert.Contains(typed, vector => !vector.Valid);
        if (ProofVectors.Folder is not null)
        {
            ProofVector[] published = [.. ProofVectors.Published(inclusion: true), .. ProofVectors.Published(inclusion: false)];
            Assert.Equal(ProofVectors.PublishedFiles, published.Length);
            Assert.Equal(ProofVectors.PublishedRefusals, published.Count(vector => !vector.Valid));
        }
    }

    private static string Short(IEnumerable<byte[]> hashes) => string.Join(' ', hashes.Select(hash => Convert.ToHexStringLower(hash.AsSpan(0, 4))));
}
