using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using CsCheck;

namespace PreApproval.Audit.Tests;

/// <summary>Numbers of RFC 8785 section 3.2.2.3.</summary>
public sealed class CanonicalNumberTests
{
    /// <summary>RFC 8785 appendix B, IEEE 754 bits and text.</summary>
    [Theory]
    [InlineData(0x0000000000000000, "0")]
    [InlineData(0x8000000000000000, "0")]
    [InlineData(0x0000000000000001, "5e-324")]
    [InlineData(0x8000000000000001, "-5e-324")]
    [InlineData(0x7fefffffffffffff, "1.7976931348623157e+308")]
    [InlineData(0xffefffffffffffff, "-1.7976931348623157e+308")]
    [InlineData(0x4340000000000000, "9007199254740992")]
    [InlineData(0xc340000000000000, "-9007199254740992")]
    [InlineData(0x4430000000000000, "295147905179352830000")]
    [InlineData(0x44b52d02c7e14af5, "9.999999999999997e+22")]
    [InlineData(0x44b52d02c7e14af6, "1e+23")]
    [InlineData(0x44b52d02c7e14af7, "1.0000000000000001e+23")]
    [InlineData(0x444b1ae4d6e2ef4e, "999999999999999700000")]
    [InlineData(0x444b1ae4d6e2ef4f, "999999999999999900000")]
    [InlineData(0x444b1ae4d6e2ef50, "1e+21")]
    [InlineData(0x3eb0c6f7a0b5ed8c, "9.999999999999997e-7")]
    [InlineData(0x3eb0c6f7a0b5ed8d, "0.000001")]
    [InlineData(0x41b3de4355555553, "333333333.3333332")]
    [InlineData(0x41b3de4355555554, "333333333.33333325")]
    [InlineData(0x41b3de4355555555, "333333333.3333333")]
    [InlineData(0x41b3de4355555556, "333333333.3333334")]
    [InlineData(0x41b3de4355555557, "333333333.33333343")]
    [InlineData(0xbecbf647612f3696, "-0.0000033333333333333333")]
    [InlineData(0x43143ff3c1cb0959, "1424953923781206.2")]
    public void Serialize_AppendixB_PublishedText(ulong bits, string expected) => Assert.Equal(expected, Text(BitConverter.UInt64BitsToDouble(bits)));

    /// <summary>
    /// The generated number file of cyberphone/json-canonicalization, testdata/README.md: lines "bits in hexadecimal,text", from a static list, then 2,000 doubles from the
    /// smallest normal one, then a chain of SHA-256. SHA-256 of the first 10^3, 10^4 and 10^5 lines as published there.
    /// </summary>
    [Theory]
    [InlineData(1_000, "be18b62b6f69cdab33a7e0dae0d9cfa869fda80ddc712221570f9f40a5878687")]
    [InlineData(10_000, "b9f7a8e75ef22a835685a52ccba7f7d6bdc99e34b010992cbc5864cd12be6892")]
    [InlineData(100_000, "22776e6d4b49fa294a0d0f349268e5c28808fe7e0cb2bcbe28f63894e494d4c7")]
    public void Serialize_PublishedNumberFile_PublishedDigest(int lines, string sha256)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (double number in PublishedNumbers().Take(lines))
        {
            hash.AppendData(Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{BitConverter.DoubleToUInt64Bits(number):x},{Text(number)}\n")));
        }

        Assert.Equal(sha256, Convert.ToHexStringLower(hash.GetHashAndReset()));
    }

    [Fact]
    public void Parse_of_Serialize_eq_number() => Gen.Double.Where(double.IsFinite).Sample(
        number => double.Parse(Text(number), CultureInfo.InvariantCulture).Equals(number == 0 ? 0 : number), iter: 20_000);

    [Fact]
    public void Canonicalize_of_Canonicalize_eq_Canonicalize() => Gen.Double.Where(double.IsFinite).Sample(number =>
    {
        byte[] once = CanonicalJson.Serialize(new JsonObject { ["n"] = number });
        return CanonicalJson.TryCanonicalize(once, out byte[] twice, out _) && twice.AsSpan().SequenceEqual(once);
    }, iter: 5_000);

    private static string Text(double number) => Encoding.UTF8.GetString(CanonicalJson.Serialize(JsonValue.Create(number)));

    private static IEnumerable<double> PublishedNumbers()
    {
        ulong[] fixedBits = [0, Sign, 1, Sign | 1, .. Thirds.Select(bits => bits | Sign), .. Thirds, .. Edges];
        foreach (ulong bits in fixedBits)
        {
            yield return BitConverter.UInt64BitsToDouble(bits);
        }

        const ulong SmallestNormal = 0x0010000000000000;
        for (ulong i = 0; i < 2_000; i++)
        {
            yield return BitConverter.UInt64BitsToDouble(SmallestNormal + i);
        }

        byte[] block = new byte[32];
        while (true)
        {
            block = SHA256.HashData(block);
            for (int i = 0; i < block.Length; i += sizeof(double))
            {
                double number = BinaryPrimitives.ReadDoubleLittleEndian(block.AsSpan(i));
                if (number != 0 && double.IsFinite(number))
                {
                    yield return number;
                }
            }
        }
    }

    private const ulong Sign = 0x8000000000000000;

    private static readonly ulong[] Thirds =
    [
        0x446696695dbd1cc3, 0x443211ede4974a35, 0x43fce97ca0f21056, 0x43c7213080c1a6ac, 0x439280f39a348556, 0x435d9b1f5d20d557,
        0x4327af4c4a80aaac, 0x42f2f2a36ecd5556, 0x42be51057e155558, 0x428840d131aaaaac, 0x4253670dc1555557, 0x421f0b4935555557,
        0x41e8d5d42aaaaaac, 0x41b3de4355555556, 0x417fca0555555556, 0x41496e6aaaaaaaab, 0x4114585555555555, 0x40e046aaaaaaaaab,
        0x40aa0aaaaaaaaaaa, 0x4074d55555555555, 0x4040aaaaaaaaaaab, 0x400aaaaaaaaaaaab, 0x3fd5555555555555, 0x3fa1111111111111,
        0x3f6b4e81b4e81b4f, 0x3f35d867c3ece2a5, 0x3f0179ec9cbd821e, 0x3ecbf647612f3696, 0x3e965e9f80f29212, 0x3e61e54c672874db,
        0x3e2ca213d840baf8, 0x3df6e80fe033c8c6, 0x3dc2533fe68fd3d2, 0x3d8d51ffd74c861c, 0x3d5774ccac3d3817, 0x3d22c3d6f030f9ac,
        0x3cee0624b3818f79, 0x3cb804ea293472c7, 0x3c833721ba905bd3, 0x3c4ebe9c5db3c61e, 0x3c18987d17c304e5, 0x3be3ad30dfcf371d,
        0x3baf7b816618582f, 0x3b792f9ab81379bf, 0x3b442615600f9499, 0x3b101e77800c76e1, 0x3ad9ca58cce0be35, 0x3aa4a1e0a3e6fe90,
        0x3a708180831f320d, 0x3a3a68cd9e985016,
    ];

    private static readonly ulong[] Edges =
    [
        0x4024000000000000, 0x4014000000000000, 0x3fe0000000000000, 0x3fa999999999999a, 0x3f747ae147ae147b, 0x3f40624dd2f1a9fc,
        0x3f0a36e2eb1c432d, 0x3ed4f8b588e368f1, 0x3ea0c6f7a0b5ed8d, 0x3e6ad7f29abcaf48, 0x3e35798ee2308c3a, 0x3ed539223589fa95,
        0x3ed4ff26cd5a7781, 0x3ed4f95a762283ff, 0x3ed4f8c60703520c, 0x3ed4f8b72f19cd0d, 0x3ed4f8b5b31c0c8d, 0x3ed4f8b58d1c461a,
        0x3ed4f8b5894f7f0e, 0x3ed4f8b588ee37f3, 0x3ed4f8b588e47da4, 0x3ed4f8b588e3849c, 0x3ed4f8b588e36bb5, 0x3ed4f8b588e36937,
        0x3ed4f8b588e368f8, 0x3ed4f8b588e368f1, 0x3ff0000000000000, 0xbff0000000000000, 0xbfeffffffffffffa, 0xbfeffffffffffffb,
        0x3feffffffffffffa, 0x3feffffffffffffb, 0x3feffffffffffffc, 0x3feffffffffffffe, 0xbfefffffffffffff, 0xbfefffffffffffff,
        0x3fefffffffffffff, 0x3fefffffffffffff, 0x3fd3333333333332, 0x3fd3333333333333, 0x3fd3333333333334, 0x0010000000000000,
        0x000ffffffffffffd, 0x000fffffffffffff, 0x7fefffffffffffff, 0xffefffffffffffff, 0x4340000000000000, 0xc340000000000000,
        0x4430000000000000, 0x44b52d02c7e14af5, 0x44b52d02c7e14af6, 0x44b52d02c7e14af7, 0x444b1ae4d6e2ef4e, 0x444b1ae4d6e2ef4f,
        0x444b1ae4d6e2ef50, 0x3eb0c6f7a0b5ed8c, 0x3eb0c6f7a0b5ed8d, 0x41b3de4355555553, 0x41b3de4355555554, 0x41b3de4355555555,
        0x41b3de4355555556, 0x41b3de4355555557, 0xbecbf647612f3696, 0x43143ff3c1cb0959,
    ];
}
