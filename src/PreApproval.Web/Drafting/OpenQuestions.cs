using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting;

/// <summary>
/// Questions of safety that the document leaves optional and the pages do not: nobody shall submit here what was never said.
/// Each is given as the place in the document and the words of its field.
/// </summary>
public static class OpenQuestions
{
    private static readonly (string Path, string Words)[] All = [("attendance", "Attendance"), ("lone", "Alone, nobody within call")];

    public static IReadOnlyList<Fault> Of(JsonObject document) =>
        [.. All.Where(q => DocumentText.Text(document, q.Path).Length == 0).Select(q => new Fault("/" + q.Path, q.Words))];
}
