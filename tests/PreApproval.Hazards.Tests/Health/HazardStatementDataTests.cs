using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Health;

/// <summary>Hazard statements against Regulation (EC) No 1272/2008, Annex VI, Table 3 (literal expectations from memory).</summary>
public sealed class HazardStatementDataTests
{
    private static readonly Catalog Data = Catalog.Default;

    [Theory]
    [InlineData("71-43-2", "H225 H304 H315 H319 H340 H350 H372")]
    [InlineData("108-88-3", "H225 H304 H315 H336 H361d H373")]
    [InlineData("110-54-3", "H225 H304 H315 H336 H361f H373 H411")]
    [InlineData("67-56-1", "H225 H301 H311 H331 H370")]
    [InlineData("67-63-0", "H225 H319 H336")]
    [InlineData("67-64-1", "EUH066 H225 H319 H336")]
    [InlineData("141-78-6", "EUH066 H225 H319 H336")]
    [InlineData("60-29-7", "EUH019 EUH066 H224 H302 H336")]
    [InlineData("110-71-4", "EUH019 H225 H332 H360FD")]
    [InlineData("75-05-8", "H225 H302 H312 H319 H332")]
    [InlineData("68-12-2", "H226 H312 H319 H332 H360D")]
    [InlineData("872-50-4", "H315 H319 H335 H360D")]
    [InlineData("75-15-0", "H225 H315 H319 H361fd H372")]
    [InlineData("67-66-3", "H302 H315 H319 H331 H351 H361d H372")]
    [InlineData("56-23-5", "H301 H311 H331 H351 H372 H412 H420")]
    [InlineData("79-01-6", "H315 H319 H336 H341 H350 H412")]
    [InlineData("77-78-1", "H301 H314 H317 H330 H341 H350")]
    [InlineData("74-88-4", "H301 H312 H315 H331 H335 H351")]
    [InlineData("1333-74-0", "H220 H280")]
    [InlineData("7782-44-7", "H270 H280")]
    [InlineData("630-08-0", "H220 H280 H331 H360D H372")]
    [InlineData("7664-41-7", "H221 H280 H314 H331 H400")]
    [InlineData("7647-01-0", "H280 H314 H331")]
    [InlineData("7664-39-3", "H300 H310 H314 H330")]
    [InlineData("7783-06-4", "H220 H280 H330 H400")]
    [InlineData("75-44-5", "H280 H314 H330")]
    [InlineData("50-00-0", "H301 H311 H314 H317 H331 H341 H350")]
    [InlineData("7726-95-6", "H314 H330 H400")]
    [InlineData("7440-23-5", "EUH014 H260 H314")]
    [InlineData("7646-69-7", "H260")]
    [InlineData("97-93-8", "EUH014 H250 H260 H314")]
    [InlineData("1310-73-2", "H314")]
    [InlineData("7439-97-6", "H330 H360D H372 H400 H410")]
    [InlineData("20816-12-0", "H300 H310 H314 H330")]
    [InlineData("12185-10-3", "H250 H300 H314 H330 H400")]
    [InlineData("302-01-2", "H226 H301 H311 H314 H317 H331 H350 H400 H410")]
    [InlineData("108-95-2", "H301 H311 H314 H331 H341 H373")]
    [InlineData("62-53-3", "H301 H311 H317 H318 H331 H341 H351 H372 H400")]
    [InlineData("107-02-8", "H225 H300 H311 H314 H330 H400 H410")]
    [InlineData("109-99-9", "EUH019 H225 H302 H319 H335 H351")]
    [InlineData("7722-84-1", "H271 H302 H314 H332")]
    [InlineData("10025-87-3", "EUH014 EUH029 H302 H314 H330 H372")]
    public void HazardStatements_WellKnownSubstance_AreThoseOfTheRegulation(string cas, string codes) =>
        Assert.Equal(codes, string.Join(' ', Find(cas).HazardStatements!.Value.Select(statement => statement.Code).Order(StringComparer.Ordinal)));

    [Theory]
    [InlineData("67-64-1", "H225", "flammable liquid", "2", "Highly flammable liquid and vapour")]
    [InlineData("60-29-7", "H224", "flammable liquid", "1", "Extremely flammable liquid and vapour")]
    [InlineData("71-43-2", "H350", "carcinogenicity", "1A", "May cause cancer")]
    [InlineData("107-13-1", "H350", "carcinogenicity", "1B", "May cause cancer")]
    [InlineData("1310-73-2", "H314", "skin corrosion", "1A", "Causes severe skin burns and eye damage")]
    [InlineData("7440-37-1", "H280", "gas under pressure", "compressed gas", "Contains gas under pressure; may explode if heated")]
    [InlineData("74-86-2", "H280", "gas under pressure", "dissolved gas", "Contains gas under pressure; may explode if heated")]
    [InlineData("109-72-8", "H250", "pyrophoric liquid", "1", "Catches fire spontaneously if exposed to air")]
    [InlineData("94-36-0", "H241", "organic peroxide", "type B", "Heating may cause a fire or explosion")]
    [InlineData("7722-64-7", "H272", "oxidising solid", "2", "May intensify fire; oxidiser")]
    public void HazardStatements_WordingClassAndCategory_AreThoseOfTheStandard(string cas, string code, string hazardClass, string category, string text)
    {
        var statement = Assert.Single(Find(cas).HazardStatements!.Value, entry => string.Equals(entry.Code, code, StringComparison.Ordinal));

        Assert.Equal((hazardClass, category, text), (statement.HazardClass, statement.Category, statement.Text));
    }

    [Theory]
    [InlineData("7732-18-5")]
    [InlineData("7647-14-5")]
    [InlineData("50-99-7")]
    public void HazardStatements_NotClassified_IsEmptyWithItsBasis(string cas)
    {
        var statements = Find(cas).HazardStatements!;

        Assert.Empty(statements.Value);
        Assert.False(string.IsNullOrWhiteSpace(statements.Note));
    }

    [Fact]
    public void HazardStatements_NoRow_IsUnknownNotEmpty() => Assert.Null(Find("7782-79-8").HazardStatements);

    /// <summary>The flash point decides the category: GHS, chapter 2.6: category 1 and 2 below 23 °C, 3 up to 60 °C.</summary>
    [Fact]
    public void HazardStatements_FlammableLiquid_AgreesWithTheFlashPoint()
    {
        var checkedOnes = 0;
        var wrong = new List<string>();
        foreach (var substance in Data.Substances)
        {
            if (substance.HazardStatements is null || substance.FlashPointK is null || substance.PhaseAt298K is not Phase.Liquid)
            {
                continue;
            }

            var lowest = substance.FlashPointK.All.Min(value => value.Value) - 273.15;
            var highest = substance.FlashPointK.All.Max(value => value.Value) - 273.15;
            var codes = substance.HazardStatements.Value.Select(statement => statement.Code).ToHashSet(StringComparer.Ordinal);
            checkedOnes++;

            // A spontaneously flammable liquid is not classified as a flammable one besides; 1 K for what is on the border.
            var pyrophoric = codes.Contains("H250");
            if ((codes.Contains("H224") || codes.Contains("H225")) && lowest > 24)
            {
                wrong.Add($"{substance.Identity.Name}: flash point {lowest:F0} °C but H224 or H225");
            }
            else if (codes.Contains("H226") && (highest < 22 || lowest > 61))
            {
                wrong.Add($"{substance.Identity.Name}: flash point {lowest:F0} to {highest:F0} °C but H226");
            }
            else if (!codes.Contains("H224") && !codes.Contains("H225") && !codes.Contains("H226") && !pyrophoric && highest < 59)
            {
                wrong.Add($"{substance.Identity.Name}: flash point {highest:F0} °C but no statement on flammability");
            }
        }

        Assert.True(checkedOnes > 100, $"only {checkedOnes} substances compared");
        Assert.Empty(wrong);
    }

    private static Substance Find(string cas)
    {
        Assert.True(Data.TryFindByCas(cas, out var substance));
        return substance;
    }
}
