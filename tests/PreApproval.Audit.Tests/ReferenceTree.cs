using System.Security.Cryptography;

namespace PreApproval.Audit.Tests;

/// <summary>The recursive definitions of RFC 9162 sections 2.1.1, 2.1.3.1 and 2.1.4.1, written down as they stand there: slow and plain.</summary>
internal static class ReferenceTree
{
    /// <summary>MTH(D[n]) over the leaves themselves.</summary>
    public static byte[] Root(byte[][] leaves)
    {
        if (leaves.Length == 0)
        {
            return SHA256.HashData([]);
        }

        if (leaves.Length == 1)
        {
            return SHA256.HashData([0x00, .. leaves[0]]);
        }

        int k = LargestPowerOfTwoBelow(leaves.Length);
        return SHA256.HashData([0x01, .. Root(leaves[..k]), .. Root(leaves[k..])]);
    }

    /// <summary>PATH(m, D[n]).</summary>
    public static byte[][] Path(int m, byte[][] leaves)
    {
        if (leaves.Length == 1)
        {
            return [];
        }

        int k = LargestPowerOfTwoBelow(leaves.Length);
        return m < k ? [.. Path(m, leaves[..k]), Root(leaves[k..])] : [.. Path(m - k, leaves[k..]), Root(leaves[..k])];
    }

    /// <summary>PROOF(m, D[n]).</summary>
    public static byte[][] Proof(int m, byte[][] leaves) => SubProof(m, leaves, whole: true);

    private static byte[][] SubProof(int m, byte[][] leaves, bool whole)
    {
        if (m == leaves.Length)
        {
            return whole ? [] : [Root(leaves)];
        }

        int k = LargestPowerOfTwoBelow(leaves.Length);
        return m <= k
            ? [.. SubProof(m, leaves[..k], whole), Root(leaves[k..])]
            : [.. SubProof(m - k, leaves[k..], whole: false), Root(leaves[..k])];
    }

    private static int LargestPowerOfTwoBelow(int n)
    {
        int k = 1;
        while (k * 2 < n)
        {
            k *= 2;
        }

        return k;
    }
}
