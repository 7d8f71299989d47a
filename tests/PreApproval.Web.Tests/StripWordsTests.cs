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

    /// <summary>A report stored before the engine told encounters has none.</summary>
    [Fact]
    public void Read_ReportWithoutEncounters_HasNoStrips() =>
        Assert.Empty(ScreeningView.Read("""{"verdict": "clear", "findings": [], "timeline": [], "coverage": []}"""u8.ToArray()).Encounters);
}
