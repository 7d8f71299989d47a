using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Vessels;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

/// <summary>
/// EN 1595, borosilicate glass 3.3, K/S = 7 N/mm²: p = 140 s/(d − s) bar, s = d p/(140 + p); half of it where the glass is not known to be annealed (common practice). Ethanol, 5 mL in 20 mL closed at 20 °C, at
/// 100 + 15 °C: 3.7 bar of vapour (Perry's, Table 2-8) and about 1.35 bar of air, 4.0 bar(g).
/// </summary>
public sealed class GlassTubeTests
{
    [Theory]
    [InlineData(20, 2.0, true, 15.6)]
    [InlineData(25.4, 3.0, true, 18.75)]
    [InlineData(12, 1.5, true, 20.0)]
    [InlineData(20, 2.0, false, 7.8)]
    [InlineData(25.4, 3.0, false, 9.375)]
    [InlineData(12, 1.5, false, 10.0)]
    public void For_SealedTubeWithItsWall_IsRatedByEn1595(double outsideMm, double wallMm, bool annealed, double bar)
    {
        var rating = GoverningRating.For(Sealed(outsideMm, wallMm, annealed), 0, 373.15);

        Assert.Equal(bar, rating.PaGauge!.Value / 1e5, 0.1);
        Assert.Equal(!annealed, rating.Note.Contains("halved", StringComparison.Ordinal));
    }

    [Fact]
    public void For_MarkOrAnotherKind_IsNotRatedByTheWall()
    {
        Assert.Equal(5e5, GoverningRating.For(Sealed(20, 2, true) with { RatingPaGauge = 5e5 }, 0, 373.15).PaGauge);
        // nothing is marked on a tube that is sealed in the flame: a number above what its wall holds does not raise it
        Assert.Equal(7.78e5, GoverningRating.For(Sealed(20, 2, false) with { RatingPaGauge = 25e5 }, 0, 373.15).PaGauge!.Value, 1e3);
        // its plug is not the wall
        Assert.Null(GoverningRating.For(Sealed(20, 2, true) with { Kind = "thick-walled glass tube" }, 0, 373.15).PaGauge);
        Assert.Null(GoverningRating.For(Sealed(20, 2, true) with { GlassTube = null }, 0, 373.15).PaGauge);
    }

    /// <summary>25 mm for 10 bar: 1.67 mm; halved, for 20 bar of the formula: 3.125 mm; 60 halved, 120 of the formula: 11.54 mm; 70, 140 of the formula: no wall.</summary>
    [Theory]
    [InlineData(true, 10, 1.67)]
    [InlineData(false, 10, 3.125)]
    [InlineData(false, 60, 11.54)]
    [InlineData(false, 70, null)]
    public void NeededWallM_Pressure_IsTheInverse(bool annealed, double bar, double? wallMm)
    {
        var wall = GlassStrength.NeededWallM(new GlassTube(25e-3, 1e-3, annealed), bar * 1e5) * 1e3;

        Assert.Equal(wallMm is null, wall is null);
        Assert.Equal(wallMm ?? 0, wall ?? 0, 0.01);
    }

    /// <summary>2 mm at 20 mm: 15.6 bar annealed, 7.8 not (EN 1595): 4.0 bar(g) is above half of the one and within half of the other.</summary>
    [Fact]
    public void Screen_TubeNotKnownToBeAnnealed_IsOfferedToBe()
    {
        var plan = PressureScreenTests.Closed("diethyl ether", 20, 8, 70, 20);
        plan = plan with { Vessels = [Sealed(20, 2, false) with { Id = "tube", VolumeM3 = 20e-6 }] };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.near-rating");
        var offer = Assert.Single(finding.ClearedBy, static offer => offer.Path is "/vessels/0/glassTube/annealed");

        Assert.DoesNotContain(Screener.Screen(Clearings.Apply(plan, offer), Policy.Default).Findings, static finding => finding.Code is "pressure.near-rating" or "pressure.exceeds-rating");
    }

    /// <summary>4.0 bar(g) against 1 mm at 20 mm: 7.4 bar annealed, 3.7 not; half of 15.6 annealed is quiet.</summary>
    [Theory]
    [InlineData(1.0, false, "pressure.exceeds-rating")]
    [InlineData(1.0, true, "pressure.near-rating")]
    [InlineData(2.0, true, null)]
    public void Screen_SealedTube_IsJudgedByItsWall(double wallMm, bool annealed, string? code)
    {
        var finding = Findings(Plan(Sealed(20, wallMm, annealed))).SingleOrDefault(static finding => finding.Code is "pressure.exceeds-rating" or "pressure.near-rating" or "pressure.unknown-rating");

        Assert.Equal(code, finding?.Code);
        if (finding is not null)
        {
            var evidence = Assert.Single(finding.Evidence, static evidence => evidence.Name is "rating of the glass wall");
            Assert.Contains("EN 1595:1997", Assert.Single(evidence.Sources), StringComparison.Ordinal);
        }
    }

    /// <summary>4.0 bar(g) are half of 8, which halved is 16 of the formula: 20·16/156 = 2.05 mm.</summary>
    [Fact]
    public void Screen_WallTooThin_OffersTheWallThatClears()
    {
        var plan = Plan(Sealed(20, 1, annealed: false));
        var finding = Findings(plan).Single(static finding => finding.Code is "pressure.exceeds-rating");
        var offer = finding.ClearedBy.Single(static offer => offer.Path is "/vessels/0/glassTube/wallMm");

        Assert.InRange(offer.Value!.Value, 1.9, 2.2);
        Assert.Null(offer.Unit);
        Assert.DoesNotContain(finding.ClearedBy, static other => other.Path is "/vessels/0/rating");
        Assert.DoesNotContain(Findings(Clearings.Apply(plan, offer)), static other => other.Code is "pressure.exceeds-rating" or "pressure.near-rating");
    }

    /// <summary>A wall of 1.5 mm at 25 mm holds 8.94 bar; 10 take 1.67 mm.</summary>
    [Theory]
    [InlineData(1.5, true)]
    [InlineData(1.7, false)]
    public void Screen_StatedRatingAboveTheWall_IsDoubtful(double wallMm, bool doubtful)
    {
        var finding = Findings(Plan(Tube(20, 10) with { GlassTube = new GlassTube(25e-3, wallMm * 1e-3, false) })).SingleOrDefault(static finding => finding.Code is "pressure.wall-doubtful");

        Assert.Equal(doubtful ? Severity.Warning : null, finding?.Severity);
        Assert.Equal(doubtful, finding?.Statement.Contains("it takes 1.67 mm", StringComparison.Ordinal) ?? false);
    }

    private static Vessel Sealed(double outsideMm, double wallMm, bool annealed) =>
        new() { Id = "tube", Kind = "flame-sealed tube", VolumeM3 = 20e-6, GlassTube = new GlassTube(outsideMm * 1e-3, wallMm * 1e-3, annealed) };

    private static Plan Plan(Vessel vessel) => PressureScreenTests.Closed("ethanol", 20, 5, 100, 20) with { Vessels = [vessel] };

    private static IReadOnlyList<Finding> Findings(Plan plan) => Screener.Screen(plan, Policy.Default).Findings;
}
