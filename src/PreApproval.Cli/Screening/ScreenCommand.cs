using System.Text.Json.Nodes;
using PreApproval.Cli.Output;
using PreApproval.Documents;
using PreApproval.Hazards.Screening;

namespace PreApproval.Cli.Screening;

/// <summary><c>screen</c>: a procedure document to a screening report, under the default policy.</summary>
internal static class ScreenCommand
{
    public static Answer Answer(ReadOnlyMemory<byte> utf8)
    {
        Result<ProcedureDocument, DocumentRefusal> read = DocumentReader.Read(utf8);
        if (!read.IsOk)
        {
            return new Problem("Unusable procedure document", DetailOf(read.Error.Kind), read.Error.Faults);
        }

        ScreenedDocument screened = DocumentScreening.Screen(read.Value, Policy.Default);
        return Output.Answer.Of(JsonNode.Parse(screened.Json.Span)!, ReportText.Of(read.Value.Title, screened.Report), screened.Report.Verdict == Verdict.Review);
    }

    private static string DetailOf(DocumentRefusalKind kind) => kind switch
    {
        DocumentRefusalKind.TooLarge => "The document is too large.",
        DocumentRefusalKind.NotJson => "The document is not JSON.",
        DocumentRefusalKind.UnknownMember => "The document has members that are not known.",
        DocumentRefusalKind.Invalid => "The document has faults.",
    };
}
