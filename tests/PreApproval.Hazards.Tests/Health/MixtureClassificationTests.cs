using CsCheck;
using PreApproval.Hazards.Health;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Health;

/// <summary>Generic rules for mixtures of Regulation (EC) No 1272/2008, Annex I, part 3 (figures from memory), worked by hand; bands after Brooke 1998.</summary>
public sealed class MixtureClassificationTests
{
    // 3.1.3.6.1: 100/ATE = Σ C/ATE with the converted estimates of Table 3.1.2 (oral 0.5, 5, 100, 500 mg/kg)
    [Theory]
    [InlineData("H301", 10, 1000.0, "H302")]
    [InlineData("H301", 50, 200.0, "H301")]
    [InlineData("H301", 4, 2500.0, null)]
    [InlineData("H300:2", 10, 50.0, "H300")]
    [InlineData("H300:2", 5, 100.0, "H301")]
    [InlineData("H302", 30, 1666.7, "H302")]
    [InlineData("H302", 0.5, null, null)]
    public void Of_OneToxicIngredient_FollowsTheAdditivityFormula(string word, double percent, double? estimate, string? code)
    {
        MixtureIngredient[] parts = [Part(percent, word), Part(100 - percent)];

        Assert.Equal(estimate, AcuteToxicity.EstimateOf(parts, ExposureRoute.Oral, InhaledForm.Vapour) is { } found ? Math.Round(found, 1) : null);
        Assert.Equal(code, MixtureClassification.Of(parts, InhaledForm.Vapour).Select(static one => one.Code).SingleOrDefault());
    }

    // two ingredients by hand: 20/100 + 40/500 = 0.28; 100/0.28 = 357 mg/kg, category 4
    [Fact]
    public void EstimateOf_TwoIngredients_AddsThem() =>
        Assert.Equal(357.1, AcuteToxicity.EstimateOf([Part(20, "H301"), Part(40, "H302"), Part(40)], ExposureRoute.Oral, InhaledForm.Vapour)!.Value, 0.1);

    // 3.1.3.6.2.3: with 30 % of unknown toxicity (100 − 30)/(20/100) = 350 in place of 500 mg/kg; 10 % change nothing
    [Theory]
    [InlineData(30, 350)]
    [InlineData(10, 500)]
    public void EstimateOf_UnknownIngredient_IsLeftOutOfTheHundredAboveATenth(double percent, double estimate) =>
        Assert.Equal(estimate, AcuteToxicity.EstimateOf([Part(20, "H301"), new MixtureIngredient(percent / 100, null), Part(80 - percent)], ExposureRoute.Oral, InhaledForm.Vapour)!.Value, 1e-9);

    // Tables 3.2.3 and 3.3.3: skin-corrosive from 5 % is corrosive, 1 to 5 % irritates; eyes damaged from 3 %
    [Theory]
    [InlineData("H314:1B", 5, "H314")]
    [InlineData("H314:1B", 4, "H315 H318")]
    [InlineData("H314:1B", 2, "H315 H319")]
    [InlineData("H314:1B", 0.5, "")]
    [InlineData("H315", 10, "H315")]
    [InlineData("H315", 9, "")]
    [InlineData("H318", 3, "H318")]
    [InlineData("H318", 1, "H319")]
    [InlineData("H319", 10, "H319")]
    [InlineData("H319", 9, "")]
    public void Of_SkinAndEyes_FollowsTheSums(string word, double percent, string codes) =>
        Assert.Equal(codes, string.Join(' ', MixtureClassification.Of([Part(percent, word), Part(100 - percent)], InhaledForm.DustOrMist).Select(static one => one.Code)));

    // 0.5 % corrosive and 6 % irritant: 10 · 0.5 + 6 = 11, irritant
    [Fact]
    public void Of_CorrosiveAndIrritantTogether_Count() =>
        Assert.Contains(MixtureClassification.Of([Part(0.5, "H314:1B"), Part(6, "H315"), Part(93.5)], InhaledForm.DustOrMist), static one => one.Code is "H315");

    // generic limits: carcinogens and mutagens 1A, 1B 0.1 %, category 2 1 %; toxic to reproduction 0.3 % and 3 %; sensitisers 1 %; target organs 10 % and 1 %; narcotic 20 %; aspiration 10 %
    [Theory]
    [InlineData("H350:1A", 0.1, "H350")]
    [InlineData("H350:1A", 0.09, "")]
    [InlineData("H351", 1, "H351")]
    [InlineData("H351", 0.9, "")]
    [InlineData("H340:1B", 0.1, "H340")]
    [InlineData("H360D:1B", 0.3, "H360D")]
    [InlineData("H360D:1B", 0.29, "")]
    [InlineData("H361d", 3, "H361d")]
    [InlineData("H361d", 2.9, "")]
    [InlineData("H334", 1, "H334")]
    [InlineData("H317", 1, "H317")]
    [InlineData("H317:1A", 0.1, "H317")]
    [InlineData("H372", 10, "H372")]
    [InlineData("H372", 5, "H373")]
    [InlineData("H372", 0.9, "")]
    [InlineData("H336", 20, "H336")]
    [InlineData("H336", 19, "")]
    [InlineData("H304", 10, "H304")]
    public void Of_GenericLimit_IsReachedOrNot(string word, double percent, string codes) =>
        Assert.Equal(codes, string.Join(' ', MixtureClassification.Of([Part(percent, word), Part(100 - percent)], InhaledForm.DustOrMist).Select(static one => one.Code)));

    [Fact]
    public void Estimate_lies_between_that_of_the_worst_and_nothing_gets_worse_by_diluting() => Gen.Select(Gen.Double[1, 60], Gen.Double[1, 40], Gen.Double[0.1, 1]).Sample(static (first, second, factor) =>
    {
        double Estimate(double by) => AcuteToxicity.EstimateOf([Part(first * by, "H301"), Part(second * by, "H300:2"), Part(100 - ((first + second) * by))], ExposureRoute.Oral, InhaledForm.Vapour) ?? double.PositiveInfinity;

        Assert.True(Estimate(1) >= 5);
        Assert.True(Estimate(factor) >= Estimate(1) * (1 - 1e-12));
    });

    [Fact]
    public void Order_of_ingredients_changes_nothing() => Gen.Double[0.1, 50].Array[4].Sample(static shares =>
    {
        string[] words = ["H314:1B", "H301", "H351", "H336"];
        MixtureIngredient[] parts = [.. shares.Select((share, index) => Part(share / 2, words[index]))];
        Assert.Equal(
            MixtureClassification.Of(parts, InhaledForm.Vapour).Select(static one => (one.Code, one.Category)),
            MixtureClassification.Of([.. parts.Reverse()], InhaledForm.Vapour).Select(static one => (one.Code, one.Category)));
    });

    // Brooke 1998, from memory
    [Theory]
    [InlineData("H225 H319 H336", 'A')]
    [InlineData("H302 H332", 'B')]
    [InlineData("H314", 'C')]
    [InlineData("H330", 'D')]
    [InlineData("H360FD H302", 'D')]
    [InlineData("H350", 'E')]
    [InlineData("H350i", 'E')]
    public void Band_WorstStatement_Wins(string codes, char band) => Assert.Equal(band, HealthBand.Of(codes.Split(' ')));

    // acetone boils at 56 °C, N,N-dimethylformamide at 153 °C, toluene at 111 °C
    [Theory]
    [InlineData(56, 20, Evaporability.Medium)]
    [InlineData(56, 50, Evaporability.High)]
    [InlineData(153, 60, Evaporability.Medium)]
    [InlineData(111, 60, Evaporability.High)]
    [InlineData(189, 20, Evaporability.Low)]
    public void Evaporability_OfBoilingPointAndTemperature(double boils, double work, Evaporability expected) => Assert.Equal(expected, HealthBand.At(boils, work));

    // NIOSH profiles of 2016 and 2017: acetonitrile 137 ppm (not 500), nitrogen dioxide 13 ppm (not 20)
    [Theory]
    [InlineData("75-05-8", 137)]
    [InlineData("10102-44-0", 13)]
    public void Idlh_IsTheRevisedOne(string cas, double ppm)
    {
        Assert.True(Catalog.Default.TryFindByCas(cas, out var substance));
        Assert.Equal(ppm, substance.Idlh!.Ppm!.Value, 1e-9);
    }

    private static MixtureIngredient Part(double percent, params string[] words) => new(percent / 100, [.. words.Select(Statement)]);

    private static HazardStatement Statement(string word)
    {
        var table = HazardStatementTable.Read(File(), []);
        return table[word];
    }

    private static string File()
    {
        using var stream = typeof(HazardStatement).Assembly.GetManifestResourceStream(HazardStatementTable.File)!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
