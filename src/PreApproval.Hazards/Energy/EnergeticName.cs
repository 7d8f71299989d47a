using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Energy;

/// <summary>
/// What a name alone tells of energetic groups (Data/energetic-words.tsv): a hint, assumed, for a substance of which nothing else is known. A word only adds a check; no word clears one.
/// Method: docs/methods/energetic-substances.md.
/// </summary>
/// <param name="Groups">Groups that a word names, each once.</param>
/// <param name="HasFuel">True where the name holds something beside an anion, metals and water: it may burn.</param>
/// <param name="IsPrimary">True where a word names a primary explosive.</param>
internal sealed record EnergeticName(IReadOnlyList<EnergeticGroup> Groups, bool HasFuel, bool IsPrimary)
{
    /// <summary>Letters that numerals of oxidation states and of charges are written with.</summary>
    private const string Numerals = "ivx";

    /// <summary>Fewer letters left over name nothing.</summary>
    private const int FewestLetters = 2;

    private static readonly Row[] Rows =
    [
        .. EmbeddedTable.Rows("energetic-words.tsv").Select(static row => new Row(
            row["word"],
            EmbeddedTable.Entries(row["except"]),
            EmbeddedTable.Entries(row["with"]),
            row["fuel"] is "yes",
            row["group"].Length == 0 ? null : EnergeticGroup.All.First(group => string.Equals(group.Name, row["group"], StringComparison.Ordinal)),
            row["primary"] is "yes")),
    ];

    /// <summary>Longest first, so that "perchlorate" is gone before "chlorate" is looked for.</summary>
    private static readonly string[] NoFuel = [.. Rows.Where(static row => row.Group is null || row.NeedsFuel).Select(static row => row.Word).Distinct(StringComparer.Ordinal).OrderByDescending(static word => word.Length).ThenBy(static word => word, StringComparer.Ordinal)];

    /// <summary>Hears the words of a name; null where none tells of an energetic group.</summary>
    public static EnergeticName? Of(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        var text = name.ToLowerInvariant();
        bool? fuel = null;
        var primary = false;
        var groups = new List<EnergeticGroup>();
        var heard = new HashSet<string>(StringComparer.Ordinal);
        foreach (var row in Rows)
        {
            if (row.Group is { } group && !heard.Contains(row.Word) && row.IsIn(text) && (!row.NeedsFuel || (fuel ??= Burns(text))))
            {
                heard.Add(row.Word);
                primary |= row.IsPrimary;
                if (!groups.Contains(group))
                {
                    groups.Add(group);
                }
            }
        }

        return groups.Count == 0 ? null : new EnergeticName(groups, fuel ?? Burns(text), primary);
    }

    /// <summary>What is left of the name without metals, water, numbers and oxidising anions may burn.</summary>
    private static bool Burns(string text)
    {
        foreach (var word in NoFuel)
        {
            text = text.Replace(word, " ", StringComparison.Ordinal);
        }

        return text.Split([.. text.Where(static letter => !char.IsLetter(letter)).Distinct()], StringSplitOptions.RemoveEmptyEntries)
            .Any(static left => left.Length >= FewestLetters && !left.All(static letter => Numerals.Contains(letter, StringComparison.Ordinal)));
    }

    private sealed record Row(string Word, IReadOnlyList<string> Except, IReadOnlyList<string> With, bool NeedsFuel, EnergeticGroup? Group, bool IsPrimary)
    {
        public bool IsIn(string text)
        {
            if (!text.Contains(Word, StringComparison.Ordinal) || (With.Count > 0 && !With.Any(other => text.Contains(other, StringComparison.Ordinal))))
            {
                return false;
            }

            foreach (var longer in Except)
            {
                text = text.Replace(longer, " ", StringComparison.Ordinal);
            }

            return text.Contains(Word, StringComparison.Ordinal);
        }
    }
}
