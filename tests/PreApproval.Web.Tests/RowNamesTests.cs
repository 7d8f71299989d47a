using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Web.Drafting.Editing;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Tests;

/// <summary>Short names of rows in the editor, and what refers to the rows. The expectations are common practice, no source.</summary>
public sealed class RowNamesTests
{
    [Fact]
    public void Name_ToAFreeName_IsFollowedByAllThatRefersToTheRow()
    {
        EditedDocument document = Draft();
        document.Name("materials", Row(document, "materials", 0), "ether");
        Assert.Equal(["ether ether", "chloride"], Used(document));
        Assert.Equal("ether", DocumentText.Text(document.Root, "scale/limiting"));
        Assert.Equal(["ether", "chloride"], DocumentText.Texts(document.Root, "waste/0/materials"));
    }

    [Fact]
    public void Name_ThroughAnotherRowsNameAndBack_ChangesNoReference()
    {
        EditedDocument document = Draft();
        string before = document.ToText();
        document.Name("materials", Row(document, "materials", 0), "chloride");
        Assert.Equal(["thf thf", "chloride"], Used(document));
        document.Name("materials", Row(document, "materials", 0), "thf");
        Assert.Equal(before, document.ToText());
    }

    [Fact]
    public void Name_ThroughAnotherRowsNameToAFreeOne_TakesOnlyTheRowsOwnReferencesAlong()
    {
        EditedDocument document = Draft();
        document.Name("materials", Row(document, "materials", 0), "chloride");
        document.Name("materials", Row(document, "materials", 0), "ether");
        Assert.Equal(["ether ether", "chloride"], Used(document));
    }

    [Fact]
    public void Name_EmptiedAndTypedAnew_IsFollowed()
    {
        EditedDocument document = Draft();
        document.Name("materials", Row(document, "materials", 0), "");
        document.Name("materials", Row(document, "materials", 0), "ether");
        Assert.Equal(["ether ether", "chloride"], Used(document));
    }

    [Fact]
    public void Name_TheOtherRowOfAClashLeaves_BothAreFollowed()
    {
        EditedDocument document = Draft();
        document.Name("materials", Row(document, "materials", 0), "chloride");
        document.Name("materials", Row(document, "materials", 1), "arene");
        Assert.Equal(["chloride chloride", "arene"], Used(document));
    }

    [Fact]
    public void Name_TwoRowsExchangeTheirNames_EachKeepsItsOwnReferences()
    {
        EditedDocument document = Draft();
        document.Name("materials", Row(document, "materials", 0), "chloride");
        document.Name("materials", Row(document, "materials", 1), "thf");
        Assert.Equal(["chloride chloride", "thf"], Used(document));
        Assert.Equal("chloride", DocumentText.Text(document.Root, "scale/limiting"));
    }

    [Fact]
    public void Name_ToANameThatADisplacedRowIsStillReferredToBy_Waits()
    {
        EditedDocument document = Draft();
        document.Root["materials"]!.AsArray().Add((JsonNode)new JsonObject { ["id"] = "base" });
        document.Name("materials", Row(document, "materials", 0), "chloride");
        document.Name("materials", Row(document, "materials", 2), "thf");
        Assert.Equal(["thf thf", "chloride"], Used(document));
        document.Name("materials", Row(document, "materials", 0), "ether");
        Assert.Equal(["ether ether", "chloride"], Used(document));
    }

    [Fact]
    public void Name_OfTwoRowsThatBeganWithOneName_LeavesTheReferencesToTheOther()
    {
        EditedDocument document = Draft();
        Row(document, "materials", 1)["id"] = "thf";
        document.Name("materials", Row(document, "materials", 1), "ether");
        Assert.Equal(["thf thf", "chloride"], Used(document));
    }

    [Fact]
    public void Name_OfAVesselThroughAClash_LeavesTheStepsInTheirVessels()
    {
        EditedDocument document = Draft();
        document.Name("vessels", Row(document, "vessels", 0), "flask");
        document.Name("vessels", Row(document, "vessels", 0), "tube 2");
        IReadOnlyList<string> vessels = [.. DocumentText.Rows(document.Root, "steps").Select(static step => DocumentText.Text(step, "vessel"))];
        Assert.Equal(["tube 2", "flask"], vessels);
    }

    private static JsonObject Row(EditedDocument document, string list, int index) => DocumentText.Rows(document.Root, list)[index];

    private static IReadOnlyList<string> Used(EditedDocument document) =>
        [.. DocumentText.Rows(document.Root, "steps").Select(static step => string.Join(' ', ((JsonArray)step["materials"]!).Select(EditedDocument.IdOfUse)))];

    private static EditedDocument Draft() => EditedDocument.Read(Encoding.UTF8.GetBytes("""
        {
          "scale": { "limiting": "thf" },
          "materials": [ { "id": "thf" }, { "id": "chloride" } ],
          "vessels": [ { "id": "tube" }, { "id": "flask" } ],
          "steps": [
            { "id": "1", "vessel": "tube", "materials": [ "thf", { "id": "thf", "amount": { "value": 1, "unit": "mL" } } ] },
            { "id": "2", "vessel": "flask", "materials": [ "chloride" ] }
          ],
          "waste": [ { "materials": [ "thf", "chloride" ] } ]
        }
        """));
}
