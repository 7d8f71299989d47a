using System.Globalization;
using System.Text;
using PreApproval.Cli.Output;
using PreApproval.Cli.Substances;
using PreApproval.Documents;
using PreApproval.Documents.Planning;
using PreApproval.Documents.Reading;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Cli.Pairs;

/// <summary><c>pair</c>: what the named substances do to each other, two by two.</summary>
internal static class PairCommand
{
    /// <summary>More names make more pairs than anybody reads (780).</summary>
    public const int MostNames = 40;

    public static Answer Answer(IReadOnlyList<string> names)
    {
        if (names.Count is < 2 or > MostNames)
        {
            return new Problem("Unusable pair", string.Create(CultureInfo.InvariantCulture, $"Name 2 to {MostNames} substances; these are {names.Count}."), []);
        }

        PairPartner?[] partners = [.. names.Select(PartnerResolution.Find)];
        Fault[] faults = [.. partners.Index().Where(entry => entry.Item is null)
            .Select(entry => new Fault(string.Create(CultureInfo.InvariantCulture, $"/{entry.Index}"), $"no substance \"{Shown.Text(names[entry.Index])}\" is on file, by CAS number, name or SMILES{SmilesFault.Of(TypedStructure.Of(names[entry.Index].Trim()))}{Hint(names[entry.Index])}"))];
        if (faults.Length > 0)
        {
            return new Problem("Unusable pair", "A substance cannot be found.", faults);
        }

        IReadOnlyList<PairAnswer> answers = PairAssessment.Of([.. partners.Select(partner => partner!)]);
        return Output.Answer.Of(PairWriter.ToJson(answers), Text(answers), answers.Any(PairWriter.IsFlagged));
    }

    private static string Hint(string name) =>
        NearName.Of(name, Catalog.Default.Substances.SelectMany(candidate => candidate.Identity.Synonyms.Prepend(candidate.Identity.Name))) is { } near ? $"; did you mean \"{near}\"?" : "";

    private static string Text(IReadOnlyList<PairAnswer> answers)
    {
        var text = new StringBuilder();
        foreach (PairAnswer answer in answers)
        {
            string severity = answer.Severity is { } word ? $", {ReportWords.Of(word)}" : "";
            text.AppendLine(CultureInfo.InvariantCulture, $"{answer.A.Name} and {answer.B.Name}: {ReportWords.Of(answer.Assessment)}{severity}");
            foreach (Encounter row in answer.Encounters)
            {
                string conditions = PairWords.Conditions(row) is { Length: > 0 } words ? $" ({words})" : "";
                text.AppendLine(CultureInfo.InvariantCulture, $"  {ReportWords.Of(row.Severity)}{conditions}: {PairWords.Sentence(row)}");
                text.AppendLine(CultureInfo.InvariantCulture, $"    {string.Join(" ", PairWords.Sources(row))}");
            }

            if (answer.Encounters.Count == 0)
            {
                text.AppendLine(CultureInfo.InvariantCulture, $"  {PairWords.Reason(answer)}.");
                foreach (string source in PairWords.Sources(answer))
                {
                    text.AppendLine(CultureInfo.InvariantCulture, $"    {source}");
                }
            }
        }

        return text.ToString();
    }
}
