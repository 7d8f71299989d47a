using System.Globalization;

namespace PreApproval.Documents.Comparing;

/// <summary>One thing that a document states of a part of the plan.</summary>
/// <param name="Name">What it is about.</param>
/// <param name="Text">As typed, for people.</param>
/// <param name="Key">What is compared: the same for <c>20 °C</c> and <c>293.15 K</c>, and for a part under two names.</param>
internal sealed record Statement(string Name, string Text, string Key)
{
    /// <summary>Says what the part is: needs no name in a sentence.</summary>
    public bool IsPlain { get; init; }

    /// <summary>Left out where a part is described as a whole.</summary>
    public bool IsDetail { get; init; }
}

/// <summary>What a document states of one part, without what it leaves open.</summary>
internal sealed class Statements
{
    private readonly List<Statement> _all = [];

    /// <summary>The part as a whole, in one phrase.</summary>
    public string Words => string.Join(", ", _all.Where(static one => !one.IsDetail).Select(static one => one.IsPlain ? one.Text : $"{one.Name} {one.Text}"));

    public Statements Plain(string name, string? text, string? key = null)
    {
        if (text is not null)
        {
            _all.Add(new Statement(name, text, key ?? text.ToUpperInvariant()) { IsPlain = true });
        }

        return this;
    }

    public Statements With(string name, string? text, string? key = null)
    {
        if (text is not null)
        {
            _all.Add(new Statement(name, text, key ?? text));
        }

        return this;
    }

    public Statements With(string name, Quantity? quantity) => With(name, PlanWords.Of(quantity), PlanWords.KeyOf(quantity));

    public Statements With(string name, DateOnly? day) => With(name, day?.ToString("d MMM yyyy", CultureInfo.InvariantCulture));

    public Statements Detail(string name, string? text, string? key = null)
    {
        if (text is not null)
        {
            _all.Add(new Statement(name, text, key ?? text) { IsDetail = true });
        }

        return this;
    }

    public Statements Detail(string name, Quantity? quantity) => Detail(name, PlanWords.Of(quantity), PlanWords.KeyOf(quantity));

    /// <summary>What the two state otherwise, in the order of the earlier one.</summary>
    public static IEnumerable<(string Name, string? Before, string? After)> Differences(Statements before, Statements after)
    {
        foreach (string name in before._all.Concat(after._all).Select(static one => one.Name).Distinct(StringComparer.Ordinal))
        {
            Statement? old = before._all.Find(one => string.Equals(one.Name, name, StringComparison.Ordinal));
            Statement? now = after._all.Find(one => string.Equals(one.Name, name, StringComparison.Ordinal));
            if (!string.Equals(old?.Key, now?.Key, StringComparison.Ordinal))
            {
                yield return (name, old?.Text, now?.Text);
            }
        }
    }
}
