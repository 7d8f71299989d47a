using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Web.Drafting.Editing;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Tests;

/// <summary>Rows that are removed in the editor, and put back. Common practice, no source.</summary>
public sealed class RemovedRowTests
{
    [Theory]
    [InlineData("materials", 0)]
    [InlineData("vessels", 0)]
    [InlineData("steps", 0)]
    [InlineData("safeguards", 0)]
    public void PutBack_AfterRemoving_IsTheDocumentBefore(string list, int index)
    {
        EditedDocument document = Draft();
        string before = document.ToText();
        document.RemoveRow(DocumentText.Rows(document.Root, list)[index], "it");
        Assert.False(string.Equals(before, document.ToText(), StringComparison.Ordinal));
        Assert.Equal("it", document.Removed?.Name);
        document.PutBack();
        Assert.Equal(before, document.ToText());
        Assert.Null(document.Removed);
        Assert.Equal(new FocusedRow("/" + list, index, RowFocus.First), document.Focus);
    }

    [Fact]
    public void PutBack_AfterAnotherChange_IsNotOffered()
    {
        EditedDocument document = Draft();
        document.RemoveRow(DocumentText.Rows(document.Root, "materials")[0], "it");
        document.SetText(document.Root, "title", "another");
        Assert.Null(document.Removed);
        string after = document.ToText();
        document.PutBack();
        Assert.Equal(after, document.ToText());
    }

    [Fact]
    public void RemoveRow_AStep_LeavesNothingToTheStepThatGetsItsNumber()
    {
        EditedDocument document = Draft();
        document.RemoveRow(DocumentText.Rows(document.Root, "steps")[0], "step 1");
        Assert.Equal("1", DocumentText.Text(Assert.Single(DocumentText.Rows(document.Root, "steps")), "id"));
        Assert.Equal("", DocumentText.Text(document.Root, "reactions/0/step"));
        Assert.Equal(["1"], DocumentText.Texts(document.Root, "safeguards/0/steps"));
    }

    private static EditedDocument Draft() => EditedDocument.Read(Encoding.UTF8.GetBytes("""
        {
          "title": "t",
          "materials": [ { "id": "thf" } ],
          "vessels": [ { "id": "tube" } ],
          "steps": [ { "id": "1", "vessel": "tube", "materials": [ "thf" ] }, { "id": "2", "vessel": "tube" } ],
          "reactions": [ { "step": "1" } ],
          "safeguards": [ { "control": "shield", "steps": [ "1", "2" ] } ]
        }
        """));
}
