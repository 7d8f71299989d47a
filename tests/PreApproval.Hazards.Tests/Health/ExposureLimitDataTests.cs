using PreApproval.Hazards.Health;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Health;

/// <summary>Limits against the publications named beside each figure (literal expectations from memory).</summary>
public sealed class ExposureLimitDataTests
{
    private const string Osha = "United States, OSHA (permissible)";
    private const string Niosh = "United States, NIOSH (recommended)";
    private const string Indicative = "European Union (indicative)";
    private const string Binding = "European Union (binding)";

    [Theory]
    [InlineData("71-43-2", Osha, "TWA", 1)]
    [InlineData("71-43-2", Niosh, "TWA", 0.1)]
    [InlineData("71-43-2", Binding, "TWA", 0.2)]
    [InlineData("108-88-3", Osha, "TWA", 200)]
    [InlineData("108-88-3", Indicative, "TWA", 50)]
    [InlineData("67-64-1", Osha, "TWA", 1000)]
    [InlineData("67-64-1", Indicative, "TWA", 500)]
    [InlineData("67-56-1", Niosh, "STEL", 250)]
    [InlineData("75-09-2", Osha, "TWA", 25)]
    [InlineData("75-09-2", Indicative, "TWA", 100)]
    [InlineData("67-66-3", Osha, "ceiling", 50)]
    [InlineData("109-99-9", Indicative, "TWA", 50)]
    [InlineData("68-12-2", Indicative, "TWA", 5)]
    [InlineData("872-50-4", Indicative, "TWA", 10)]
    [InlineData("110-54-3", Indicative, "TWA", 20)]
    [InlineData("75-15-0", Indicative, "TWA", 5)]
    [InlineData("10102-44-0", Indicative, "TWA", 0.5)]
    [InlineData("7783-06-4", Indicative, "TWA", 5)]
    [InlineData("630-08-0", Indicative, "TWA", 20)]
    [InlineData("75-44-5", Indicative, "TWA", 0.02)]
    [InlineData("7664-41-7", Niosh, "TWA", 25)]
    [InlineData("7664-39-3", Niosh, "ceiling", 6)]
    [InlineData("7782-50-5", Osha, "ceiling", 1)]
    [InlineData("74-90-8", Indicative, "TWA", 0.9)]
    [InlineData("75-21-8", Binding, "TWA", 1)]
    [InlineData("50-00-0", Niosh, "TWA", 0.016)]
    [InlineData("302-01-2", Binding, "TWA", 0.01)]
    [InlineData("13463-39-3", Osha, "TWA", 0.001)]
    [InlineData("20816-12-0", Niosh, "TWA", 0.0002)]
    public void ExposureLimits_Ppm_IsThatOfThePublication(string cas, string jurisdiction, string kind, double ppm) =>
        Assert.Equal(ppm, Assert.Single(Limits(cas).All, limit => string.Equals(limit.Jurisdiction, jurisdiction, StringComparison.Ordinal) && limit.Kind == Kind(kind)).Ppm);

    /// <summary>29 CFR 1910.1000 Table Z-1: 2 mg/m³; a solid has no ppm.</summary>
    [Fact]
    public void ExposureLimits_SodiumHydroxide_IsAMassWithoutPpm() => Assert.All(Limits("1310-73-2").All, limit =>
    {
        Assert.Equal(2, limit.MilligramPerM3);
        Assert.Null(limit.Ppm);
    });

    [Theory]
    [InlineData("10102-44-0", "TWA", 0.2)]
    [InlineData("7783-06-4", "TWA", 1)]
    [InlineData("68-12-2", "TWA", 5)]
    [InlineData("13463-39-3", "TWA", 0.001)]
    [InlineData("75-44-5", "TWA", 0.02)]
    [InlineData("71-43-2", "TWA", 0.1)]
    [InlineData("71-43-2", "STEL", 1)]
    [InlineData("7664-41-7", "TWA", 20)]
    [InlineData("7647-01-0", "ceiling", 2)]
    public void Strictest_OfAll_Governs(string cas, string kind, double ppm) => Assert.Equal(ppm, Limits(cas).Of(Kind(kind))!.Ppm);

    [Fact]
    public void ExposureLimits_Disagreement_KeepsEveryPublication()
    {
        var limits = Limits("10102-44-0");

        Assert.Contains(limits.All, limit => limit is { Kind: LimitKind.TimeWeightedAverage, Ppm: 3, Jurisdiction: "Canada, Ontario" });
        Assert.Contains(limits.All, limit => limit is { Kind: LimitKind.Ceiling, Ppm: 5, Jurisdiction: Osha });
        Assert.Same(limits.StrictestTwa, limits.All.Where(limit => limit.Kind == LimitKind.TimeWeightedAverage).MinBy(limit => limit.MilligramPerM3));
    }

    [Theory]
    [InlineData("108-95-2")]
    [InlineData("68-12-2")]
    [InlineData("67-56-1")]
    [InlineData("302-01-2")]
    public void ExposureLimits_ThroughTheSkin_CarryTheNote(string cas) => Assert.True(Limits(cas).Skin);

    [Theory]
    [InlineData("75-05-8", 137)]
    [InlineData("10102-44-0", 13)]
    [InlineData("71-43-2", 500)]
    [InlineData("108-88-3", 500)]
    [InlineData("67-56-1", 6000)]
    [InlineData("67-64-1", 2500)]
    [InlineData("60-29-7", 1900)]
    [InlineData("109-99-9", 2000)]
    [InlineData("75-09-2", 2300)]
    [InlineData("67-66-3", 500)]
    [InlineData("110-54-3", 1100)]
    [InlineData("75-15-0", 500)]
    [InlineData("630-08-0", 1200)]
    [InlineData("7664-41-7", 300)]
    [InlineData("7782-50-5", 10)]
    [InlineData("7783-06-4", 100)]
    [InlineData("74-90-8", 50)]
    [InlineData("7664-39-3", 30)]
    [InlineData("7647-01-0", 50)]
    [InlineData("75-44-5", 2)]
    [InlineData("50-00-0", 20)]
    [InlineData("7726-95-6", 3)]
    [InlineData("7784-42-1", 3)]
    [InlineData("10028-15-6", 5)]
    [InlineData("7446-09-5", 100)]
    [InlineData("124-38-9", 40_000)]
    [InlineData("13463-39-3", 2)]
    [InlineData("302-01-2", 50)]
    public void Idlh_Ppm_IsThatOfTheNioshList(string cas, double ppm) => Assert.Equal(ppm, Find(cas).Idlh!.Ppm);

    [Theory]
    [InlineData("1310-73-2", 10)]
    [InlineData("7439-97-6", 10)]
    [InlineData("7664-93-9", 15)]
    [InlineData("20816-12-0", 1)]
    public void Idlh_Particulate_IsAMass(string cas, double milligramPerM3) => Assert.Equal(milligramPerM3, Find(cas).Idlh!.MilligramPerM3);

    /// <summary>An IDLH at or below a limit for a shift would be a slip of one of them.</summary>
    [Fact]
    public void Idlh_IsAboveEveryStrictestShiftLimit()
    {
        var both = Catalog.Default.Substances.Where(substance => substance.Idlh is not null && substance.ExposureLimits?.StrictestTwa is not null).ToList();

        Assert.True(both.Count > 100);
        Assert.All(both, substance => Assert.True(substance.Idlh!.MilligramPerM3 > substance.ExposureLimits!.StrictestTwa!.MilligramPerM3, substance.Identity.Name));
    }

    /// <summary>IARC Monographs, volumes 120, 100F, 106, 110, 115, 119, 71 and 136.</summary>
    [Theory]
    [InlineData("71-43-2", "1")]
    [InlineData("50-00-0", "1")]
    [InlineData("79-01-6", "1")]
    [InlineData("107-13-1", "1")]
    [InlineData("75-09-2", "2A")]
    [InlineData("68-12-2", "2A")]
    [InlineData("109-99-9", "2B")]
    [InlineData("108-88-3", "3")]
    public void Carcinogen_Group_IsThatOfTheMonographs(string cas, string group) => Assert.Equal(group, Find(cas).Carcinogen!.GroupName);

    [Fact]
    public void Coverage_OfTheCatalogue_IsWhatTheDocumentationSays()
    {
        Assert.InRange(Catalog.Default.Substances.Count(substance => substance.HazardStatements is not null), 490, int.MaxValue);
        Assert.InRange(Catalog.Default.Substances.Count(substance => substance.ExposureLimits is not null), 190, int.MaxValue);
        Assert.InRange(Catalog.Default.Substances.Count(substance => substance.Idlh is not null), 155, int.MaxValue);
    }

    private static LimitKind Kind(string word) => word switch
    {
        "TWA" => LimitKind.TimeWeightedAverage,
        "STEL" => LimitKind.ShortTerm,
        _ => LimitKind.Ceiling,
    };

    private static ExposureLimits Limits(string cas) => Find(cas).ExposureLimits!;

    private static Substance Find(string cas)
    {
        Assert.True(Catalog.Default.TryFindByCas(cas, out var substance));
        return substance;
    }
}
