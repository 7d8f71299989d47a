using System.Text.Json;

namespace PreApproval.Audit.Tests;

/// <summary>A claim about an inclusion or consistency proof and whether it must verify.</summary>
/// <param name="Name">Path of the published file without its extension.</param>
/// <param name="First">Leaf index, or first size.</param>
/// <param name="Second">Tree size, or second size.</param>
/// <param name="FirstHash">Base64 of the leaf hash, or of the first root.</param>
/// <param name="SecondHash">Base64 of the root, or of the second root.</param>
public sealed record ProofVector(string Name, long First, long Second, string FirstHash, string SecondHash, string[] Proof, bool Valid)
{
    public override string ToString() => Name;
}

/// <summary>
/// Proof vectors published by transparency-dev/merkle at commit 417fb0c3 (Apache-2.0), testdata/inclusion and testdata/consistency: 196 files, of which
/// 184 must be refused. A selection is typed in; the rest is read from rfc6962/ in the folder that PREAPPROVAL_VECTORS names, when it is there.
/// </summary>
public static class ProofVectors
{
    public const int PublishedFiles = 196;
    public const int PublishedRefusals = 184;

    public static string? Folder { get; } =
        Environment.GetEnvironmentVariable("PREAPPROVAL_VECTORS") is { Length: > 0 } folder && Directory.Exists(Path.Combine(folder, "rfc6962")) ? Path.Combine(folder, "rfc6962") : null;

    public static IReadOnlyList<ProofVector> TypedInclusion { get; } =
    [
        new("inclusion/2/happy-path", 5, 8, "QnGia+DYqE8L1UyMMC58s6O10fpngKQLzOKHNHfatlg=", "XcnaeacGWamtVZy3Ad7ZoqudgjqtL0lgz+Nw7/RgQyg=", ["vBoGQ7EuTS18d5GPROD095qDi2z57FtcKD4fTYhZnms=", "yoVOoSjtBQtBs1/8G4e46yveRh6eO1WW7Oa51ZdaCuA=", "037kGJdt2VdTwcc4Yrk5j6Kiz5tP8P3+izDNlSCWFLc="], true),
        new("inclusion/3/happy-path", 2, 3, "ApjRIpBtz8EIkstTpzmS/FufST6kybrbJ7eRtBJ6f+c=", "rra8/idLcKFPsGel5VeCZNsPqbUa9eC6FZFY8yngbnc=", ["+sVCA+fMaWzw38tCySodnbr3CtnmIfS9jZhmLwDjwSU="], true),
        new("inclusion/4/happy-path", 1, 5, "lqKW0iTyhcZ77pPDD4owkVfw2qNdxbh+QQt4YwoJz8c=", "Tju7H3tHjc/nH7YxYxUZo7yhLJrvyhYSv85ME6hiZNQ=", ["bjQLnP+zepicpUTmu3gKLHiQHT+zNzh2hRGjBhevoB0=", "Xwg/ChozygdqlSeYMlgNs+DvRYS9/x9UyKNg9Q3jAx4=", "vBoGQ7EuTS18d5GPROD095qDi2z57FtcKD4fTYhZnms="], true),
        new("inclusion/single-entry/matching-root-and-leaf", 0, 1, "DTrtAjFI/9KiWfvQzcf7PPl1ZYdg03dbgq9vkKrMLfw=", "DTrtAjFI/9KiWfvQzcf7PPl1ZYdg03dbgq9vkKrMLfw=", [], true),
        new("inclusion/single-entry/empty-root-and-leaf", 0, 1, "", "", [], false),
        new("inclusion/single-entry/empty-root", 0, 1, "DTrtAjFI/9KiWfvQzcf7PPl1ZYdg03dbgq9vkKrMLfw=", "", [], false),
        new("inclusion/single-entry/empty-leaf", 0, 1, "", "DTrtAjFI/9KiWfvQzcf7PPl1ZYdg03dbgq9vkKrMLfw=", [], false),
        new("inclusion/2/wrong-leaf", 5, 8, "V3JvbmdMZWFm", "XcnaeacGWamtVZy3Ad7ZoqudgjqtL0lgz+Nw7/RgQyg=", ["vBoGQ7EuTS18d5GPROD095qDi2z57FtcKD4fTYhZnms=", "yoVOoSjtBQtBs1/8G4e46yveRh6eO1WW7Oa51ZdaCuA=", "037kGJdt2VdTwcc4Yrk5j6Kiz5tP8P3+izDNlSCWFLc="], false),
        new("inclusion/2/trailing-root", 5, 8, "QnGia+DYqE8L1UyMMC58s6O10fpngKQLzOKHNHfatlg=", "XcnaeacGWamtVZy3Ad7ZoqudgjqtL0lgz+Nw7/RgQyg=", ["vBoGQ7EuTS18d5GPROD095qDi2z57FtcKD4fTYhZnms=", "yoVOoSjtBQtBs1/8G4e46yveRh6eO1WW7Oa51ZdaCuA=", "037kGJdt2VdTwcc4Yrk5j6Kiz5tP8P3+izDNlSCWFLc=", "XcnaeacGWamtVZy3Ad7ZoqudgjqtL0lgz+Nw7/RgQyg="], false),
        new("inclusion/2/random-root", 5, 8, "QnGia+DYqE8L1UyMMC58s6O10fpngKQLzOKHNHfatlg=", "q6yroAAAAAAAAAAAAAAAAAAAAAAAAAAAAGAGHgASNFY=", ["vBoGQ7EuTS18d5GPROD095qDi2z57FtcKD4fTYhZnms=", "yoVOoSjtBQtBs1/8G4e46yveRh6eO1WW7Oa51ZdaCuA=", "037kGJdt2VdTwcc4Yrk5j6Kiz5tP8P3+izDNlSCWFLc="], false),
        new("inclusion/2/inserted-component", 5, 8, "QnGia+DYqE8L1UyMMC58s6O10fpngKQLzOKHNHfatlg=", "XcnaeacGWamtVZy3Ad7ZoqudgjqtL0lgz+Nw7/RgQyg=", ["vBoGQ7EuTS18d5GPROD095qDi2z57FtcKD4fTYhZnms=", "q6yroAAAAAAAAAAAAAAAAAAAAAAAAAAAAGAGHgASNFY=", "yoVOoSjtBQtBs1/8G4e46yveRh6eO1WW7Oa51ZdaCuA=", "037kGJdt2VdTwcc4Yrk5j6Kiz5tP8P3+izDNlSCWFLc="], false),
        new("inclusion/2/removed-component", 5, 8, "QnGia+DYqE8L1UyMMC58s6O10fpngKQLzOKHNHfatlg=", "XcnaeacGWamtVZy3Ad7ZoqudgjqtL0lgz+Nw7/RgQyg=", ["vBoGQ7EuTS18d5GPROD095qDi2z57FtcKD4fTYhZnms=", "yoVOoSjtBQtBs1/8G4e46yveRh6eO1WW7Oa51ZdaCuA="], false),
        new("inclusion/2/leafIdx-plus-@1", 6, 8, "QnGia+DYqE8L1UyMMC58s6O10fpngKQLzOKHNHfatlg=", "XcnaeacGWamtVZy3Ad7ZoqudgjqtL0lgz+Nw7/RgQyg=", ["vBoGQ7EuTS18d5GPROD095qDi2z57FtcKD4fTYhZnms=", "yoVOoSjtBQtBs1/8G4e46yveRh6eO1WW7Oa51ZdaCuA=", "037kGJdt2VdTwcc4Yrk5j6Kiz5tP8P3+izDNlSCWFLc="], false),
        new("inclusion/2/preceding-garbage", 5, 8, "QnGia+DYqE8L1UyMMC58s6O10fpngKQLzOKHNHfatlg=", "XcnaeacGWamtVZy3Ad7ZoqudgjqtL0lgz+Nw7/RgQyg=", ["", "vBoGQ7EuTS18d5GPROD095qDi2z57FtcKD4fTYhZnms=", "yoVOoSjtBQtBs1/8G4e46yveRh6eO1WW7Oa51ZdaCuA=", "037kGJdt2VdTwcc4Yrk5j6Kiz5tP8P3+izDNlSCWFLc="], false),
    ];

    public static IReadOnlyList<ProofVector> TypedConsistency { get; } =
    [
        new("consistency/3/happy-path", 2, 5, "+sVCA+fMaWzw38tCySodnbr3CtnmIfS9jZhmLwDjwSU=", "Tju7H3tHjc/nH7YxYxUZo7yhLJrvyhYSv85ME6hiZNQ=", ["Xwg/ChozygdqlSeYMlgNs+DvRYS9/x9UyKNg9Q3jAx4=", "vBoGQ7EuTS18d5GPROD095qDi2z57FtcKD4fTYhZnms="], true),
        new("consistency/additional/sizes-are-equal-one-and-proof-is-empty", 1, 1, "ZG9uJ3QgY2FyZSAy", "ZG9uJ3QgY2FyZSAy", [], true),
        new("consistency/additional/sizes-are-equal-zero-and-proof-is-empty", 0, 0, "ZG9uJ3QgY2FyZSAx", "ZG9uJ3QgY2FyZSAx", [], false),
        new("consistency/additional/consistency-check-on-empty-tree-size1-is-zero-is-useless", 0, 1, "47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=", "47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=", ["47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU="], false),
        new("consistency/additional/sizes-match-but-proof-is-not-empty-and-sizes-are-one", 1, 1, "47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=", "47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=", ["47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU="], false),
        new("consistency/additional/sizes-are-equal-one-but-roots-are-not", 1, 1, "ZG9uJ3QgY2FyZSAx", "ZG9uJ3QgY2FyZSAy", [], false),
        new("consistency/additional/size1-is-greater-than-size2", 1, 0, "ZG9uJ3QgY2FyZSAx", "ZG9uJ3QgY2FyZSAy", [], false),
        new("consistency/additional/sizes-do-not-watch-and-proof-is-empty", 1, 2, "ZG9uJ3QgY2FyZSAx", "ZG9uJ3QgY2FyZSAy", [], false),
        new("consistency/3/swapped-roots", 2, 5, "Tju7H3tHjc/nH7YxYxUZo7yhLJrvyhYSv85ME6hiZNQ=", "+sVCA+fMaWzw38tCySodnbr3CtnmIfS9jZhmLwDjwSU=", ["Xwg/ChozygdqlSeYMlgNs+DvRYS9/x9UyKNg9Q3jAx4=", "vBoGQ7EuTS18d5GPROD095qDi2z57FtcKD4fTYhZnms="], false),
        new("consistency/3/wrong-root1", 2, 5, "V3JvbmdSb290", "Tju7H3tHjc/nH7YxYxUZo7yhLJrvyhYSv85ME6hiZNQ=", ["Xwg/ChozygdqlSeYMlgNs+DvRYS9/x9UyKNg9Q3jAx4=", "vBoGQ7EuTS18d5GPROD095qDi2z57FtcKD4fTYhZnms="], false),
        new("consistency/3/truncated-proof", 2, 5, "+sVCA+fMaWzw38tCySodnbr3CtnmIfS9jZhmLwDjwSU=", "Tju7H3tHjc/nH7YxYxUZo7yhLJrvyhYSv85ME6hiZNQ=", ["Xwg/ChozygdqlSeYMlgNs+DvRYS9/x9UyKNg9Q3jAx4="], false),
        new("consistency/3/trailing-garbage", 2, 5, "+sVCA+fMaWzw38tCySodnbr3CtnmIfS9jZhmLwDjwSU=", "Tju7H3tHjc/nH7YxYxUZo7yhLJrvyhYSv85ME6hiZNQ=", ["Xwg/ChozygdqlSeYMlgNs+DvRYS9/x9UyKNg9Q3jAx4=", "vBoGQ7EuTS18d5GPROD095qDi2z57FtcKD4fTYhZnms=", ""], false),
        new("consistency/3/preceding-root1", 2, 5, "+sVCA+fMaWzw38tCySodnbr3CtnmIfS9jZhmLwDjwSU=", "Tju7H3tHjc/nH7YxYxUZo7yhLJrvyhYSv85ME6hiZNQ=", ["+sVCA+fMaWzw38tCySodnbr3CtnmIfS9jZhmLwDjwSU=", "Xwg/ChozygdqlSeYMlgNs+DvRYS9/x9UyKNg9Q3jAx4=", "vBoGQ7EuTS18d5GPROD095qDi2z57FtcKD4fTYhZnms="], false),
        new("consistency/3/empty-proof", 2, 5, "+sVCA+fMaWzw38tCySodnbr3CtnmIfS9jZhmLwDjwSU=", "Tju7H3tHjc/nH7YxYxUZo7yhLJrvyhYSv85ME6hiZNQ=", [], false),
    ];

    public static IReadOnlyList<ProofVector> Published(bool inclusion)
    {
        if (Folder is not { } folder)
        {
            return [];
        }

        (string first, string second, string firstHash, string secondHash) = inclusion ? ("leafIdx", "treeSize", "leafHash", "root") : ("size1", "size2", "root1", "root2");
        return [.. Directory.EnumerateFiles(Path.Combine(folder, inclusion ? "inclusion" : "consistency"), "*.json", SearchOption.AllDirectories).Order(StringComparer.Ordinal).Select(file =>
        {
            using var document = JsonDocument.Parse(File.ReadAllBytes(file));
            JsonElement root = document.RootElement;
            JsonElement proof = root.GetProperty("proof");
            return new ProofVector(
                Path.ChangeExtension(Path.GetRelativePath(folder, file), null),
                Signed(root.GetProperty(first)),
                Signed(root.GetProperty(second)),
                root.GetProperty(firstHash).GetString() ?? string.Empty,
                root.GetProperty(secondHash).GetString() ?? string.Empty,
                proof.ValueKind == JsonValueKind.Null ? [] : [.. proof.EnumerateArray().Select(hash => hash.GetString()!)],
                !root.GetProperty("wantErr").GetBoolean());
        })];
    }

    // the publisher's sizes are unsigned 64-bit integers; what no signed one holds is a negative one here
    private static long Signed(JsonElement number) => unchecked((long)number.GetUInt64());
}
