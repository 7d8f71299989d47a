namespace PreApproval.Audit.Tests;

public sealed class CompactRangeTests
{
    [Fact]
    public void Root_GrowingPublishedTree_PublishedRoots()
    {
        CompactRange range = CompactRange.Empty;
        Assert.Equal(MerkleTreeTests.Roots[0], Convert.ToHexStringLower(range.Root()));
        foreach ((byte[] hash, string root) in MerkleTreeTests.LeafHashes.Zip(MerkleTreeTests.Roots.Skip(1)))
        {
            range = range.Append(hash);
            Assert.Equal(root, Convert.ToHexStringLower(range.Root()));
        }
    }

    [Fact]
    public void Append_ToARange_LeavesItAsItWas()
    {
        CompactRange one = CompactRange.Empty.Append(MerkleTreeTests.LeafHashes[0]);
        _ = one.Append(MerkleTreeTests.LeafHashes[1]);
        Assert.Equal(1, one.Size);
        Assert.Equal(MerkleTreeTests.Roots[1], Convert.ToHexStringLower(one.Root()));
    }

    [Fact]
    public void Append_CallerChangesItsArrayAfterwards_RootStays()
    {
        byte[] hash = [.. MerkleTreeTests.LeafHashes[0]];
        CompactRange one = CompactRange.Empty.Append(hash);
        hash[0] ^= 1;
        Assert.Equal(MerkleTreeTests.Roots[1], Convert.ToHexStringLower(one.Root()));
    }

    [Fact]
    public void Append_HashOfAnotherLength_Throws() => Assert.Throws<ArgumentException>(() => CompactRange.Empty.Append(new byte[31]));

    [Fact]
    public void Equals_SameSizeOtherHashes_False()
    {
        CompactRange one = CompactRange.Empty.Append(MerkleTreeTests.LeafHashes[0]);
        Assert.NotEqual(CompactRange.Empty.Append(MerkleTreeTests.LeafHashes[1]), one);
        Assert.NotEqual(CompactRange.Empty, one);
        Assert.Equal(CompactRange.Empty.Append(MerkleTreeTests.LeafHashes[0]), one);
    }

    [Theory]
    [InlineData("")]
    [InlineData("00000000000000")]
    [InlineData("0000000000000001")]
    [InlineData("000000000000000000")]
    [InlineData("ffffffffffffffff")]
    [InlineData("00000000000000036e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d")]
    public void FromBytes_HashesDoNotFitSize_Throws(string hex) =>
        Assert.Throws<FormatException>(() => CompactRange.FromBytes(Convert.FromHexString(hex)));
}
