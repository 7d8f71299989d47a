using System.Text.RegularExpressions;
using PreApproval.Hazards.Safeguards;
using PreApproval.Testing;

namespace PreApproval.Hazards.Tests.Safeguards;

/// <summary>Every code the engine can give has a row of control-needs.tsv, or one that says why no control answers it.</summary>
public sealed partial class FindingCodeTests
{
    public static TheoryData<string> Codes => [.. InTheSources().Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Codes))]
    public void Of_CodeInTheSources_HasANeedOrAReason(string code) => Assert.NotNull(ControlNeeds.Of(code));

    [Fact]
    public void Codes_AreFound() => Assert.True(InTheSources().Count > 40);

    private static HashSet<string> InTheSources() =>
        [.. Directory.EnumerateFiles(Path.Combine(RepositoryFolder.Path, "src", "PreApproval.Hazards"), "*.cs", SearchOption.AllDirectories)
            .Where(static file => !file.Contains("/obj/", StringComparison.Ordinal) && !file.Contains("/bin/", StringComparison.Ordinal))
            .SelectMany(static file => Code().Matches(File.ReadAllText(file)))
            .Select(static match => match.Groups["code"].Value)];

    // a code stands alone in quotes: kind of hazard, point, lower-case words
    [GeneratedRegex("\"(?<code>(pressure|incompatibility|fire|energetic|gas|heat|toxicity|peroxide|temperature|safeguard|data|vessel|vacuum|cold|waste)\\.[a-z-]+)\"", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Code();
}
