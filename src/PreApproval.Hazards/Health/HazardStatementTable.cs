using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Health;

/// <summary>
/// The statements by the word that the data rows use: the code alone (<c>H225</c>), or with a colon and what tells several
/// categories of one code apart (<c>H314:1B</c>, <c>H280:liquefied</c>).
/// </summary>
internal static class HazardStatementTable
{
    internal const string File = "Data/hazard-codes.tsv";

    public static Dictionary<string, HazardStatement> Read(string text, List<string> faults)
    {
        var table = new Dictionary<string, HazardStatement>(StringComparer.Ordinal);
        foreach (var row in TsvRow.Read(File, text, faults))
        {
            var word = row["statement"];
            var colon = word.IndexOf(':', StringComparison.Ordinal);
            var statement = new HazardStatement(colon < 0 ? word : word[..colon], row["class"], row["category"], row["text"]);
            if (statement.HazardClass.Length == 0 || statement.Text.Length == 0)
            {
                faults.Add(row.Fault($"{word} lacks its class or its text"));
            }

            if (!table.TryAdd(word, statement))
            {
                faults.Add(row.Fault($"{word} is listed twice"));
            }
        }

        return table;
    }
}
