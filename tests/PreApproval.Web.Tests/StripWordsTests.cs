using System.Text;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Tests;

/// <summary>Headings of the strips are our own words; there is nothing outside to compare with.</summary>
public sealed class StripWordsTests
{
    private const string Report = """
        {"verdict": "clear", "findings": [], "timeline": [], "coverage": [], "encounters": [
          {"place": "vessel", "step": "3", "where": "flask", "findings": ["incompatibility.saline-hydride-with-water/flask/3"], "hazards": [],
           "noneKnown": [{"basis": "They mix.", "source": ["a book"], "pairs": [{"a": "tetrahydrofuran", "b": "water"}, {"a": "toluene", "b": "water"}]}],
           "notAssessed": [{"a": "powder", "b": "water"}]},
          {"place": "waste", "step": null, "where": "aqueous", "findings": [], "hazards": [], "noneKnown": [], "notAssessed": [{"a": "powder", "b": "water"}]},
          {"place": "agent", "step": null, "where": "water", "findings": [], "hazards": [{"severity": "danger", "statement": "Sodium under water: it burns.", "source": []}], "noneKnown": [], "notAssessed": []}]}
        """;

    [Fact]
    public void Read_Strips_SayWhereAndHowMany()
    {
        IReadOnlyList<StripView> strips = ScreeningView.Read(Encoding.UTF8.GetBytes(Report)).Encounters;

        Assert.Equal(["Step 3, in flask", "Waste “aqueous”", "Under water, should it burn"], strips.Select(static strip => strip.Heading), StringComparer.Ordinal);
        Assert.Equal(["1 hazard, 2 none known, 1 not assessed", "1 not assessed", "1 hazard"], strips.Select(static strip => strip.Counts), StringComparer.Ordinal);
        Assert.Equal("Tetrahydrofuran and water", strips[0].NoneKnown[0].Pairs[0].Both);
    }

    /// <summary>A finding about steps 3 and 4 of one vessel is told at step 3; step 4, at which nothing else is new, has no strip.</summary>
    [Fact]
    public void ToldOnce_FindingOfTwoSteps_IsToldAtTheFirst()
    {
        const string Both = """
            {"verdict": "clear", "findings": [], "timeline": [], "coverage": [], "encounters": [
              {"place": "vessel", "step": "3", "where": "flask", "findings": ["x/flask/3,4"], "hazards": [], "noneKnown": [], "notAssessed": []},
              {"place": "vessel", "step": "4", "where": "flask", "findings": ["x/flask/3,4"], "hazards": [], "noneKnown": [], "notAssessed": []},
              {"place": "vessel", "step": "5", "where": "flask", "findings": ["x/flask/3,4"], "hazards": [], "noneKnown": [], "notAssessed": [{"a": "powder", "b": "water"}]}]}
            """;
        IReadOnlyList<StripView> strips = StripView.ToldOnce(ScreeningView.Read(Encoding.UTF8.GetBytes(Both)).Encounters);
        Assert.Equal(["Step 3, in flask: 1 hazard", "Step 5, in flask: 1 not assessed"], strips.Select(static strip => $"{strip.Heading}: {strip.Counts}"), StringComparer.Ordinal);
    }

    [Fact]
    public void WithoutBan_AgentsAtHand_AreThoseThatNoStripIsAbout()
    {
        IReadOnlyList<StripView> strips = ScreeningView.Read(Encoding.UTF8.GetBytes(Report)).Encounters;
        Assert.Equal(["dry powder", "dry sand"], StripView.WithoutBan(strips, ["dry powder", "water", "dry sand", "dry sand"]), StringComparer.Ordinal);
    }

    /// <summary>A report stored before the engine told encounters has none.</summary>
    [Fact]
    public void Read_ReportWithoutEncounters_HasNoStrips() =>
        Assert.Empty(ScreeningView.Read("""{"verdict": "clear", "findings": [], "timeline": [], "coverage": []}"""u8.ToArray()).Encounters);
}
