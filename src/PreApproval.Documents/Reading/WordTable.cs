using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents.Reading;

/// <summary>The words of the contract for one enumeration.</summary>
/// <param name="wordOf">The word of a value.</param>
/// <param name="meant">Other words for a value, in lower case: refused as well, but with the right one beside it.</param>
internal sealed class WordTable<T>(Func<T, string> wordOf, params (string Word, T Value)[] meant)
    where T : struct, Enum
{
    private readonly Dictionary<string, T> _values = Enum.GetValues<T>().ToDictionary(wordOf, value => value, StringComparer.Ordinal);

    public IReadOnlyList<string> All { get; } = [.. Enum.GetValues<T>().Select(wordOf)];

    public string WordOf(T value) => wordOf(value);

    /// <summary>The word that stands here for another one of the trade, else the nearest in spelling; null when none is near.</summary>
    public string? Near(string word)
    {
        foreach ((string other, T value) in meant)
        {
            if (string.Equals(other, word.Trim(), StringComparison.OrdinalIgnoreCase))
            {
                return wordOf(value);
            }
        }

        return NearName.Of(word, All);
    }

    public bool TryFind(string word, out T value) => _values.TryGetValue(word, out value);
}

/// <summary>All word tables of the document.</summary>
internal static class Words
{
    public static WordTable<StepAction> Actions { get; } = new(Plain);

    public static WordTable<Role> Roles { get; } = new(Plain);

    public static WordTable<HeatSource> HeatSources { get; } = new(Plain);

    public static WordTable<Closure> Closures { get; } = new(Plain);

    public static WordTable<ReliefKind> ReliefKinds { get; } = new(
        Plain,
        ("rupture disc", ReliefKind.BurstingDisc),
        ("rupture disk", ReliefKind.BurstingDisc),
        ("burst disc", ReliefKind.BurstingDisc),
        ("burst disk", ReliefKind.BurstingDisc),
        ("safety valve", ReliefKind.Valve),
        ("relief valve", ReliefKind.Valve),
        ("pressure relief valve", ReliefKind.Valve));

    public static WordTable<Attendance> Attendances { get; } = new(Plain);

    public static WordTable<Experience> Experiences { get; } = new(Plain);

    public static WordTable<PlaceKind> PlaceKinds { get; } = new(Plain);

    public static WordTable<Phase> States { get; } = new(Plain);

    public static WordTable<AntoinePressureUnit> AntoinePressureUnits { get; } = new(static unit => unit switch
    {
        AntoinePressureUnit.Bar => "bar",
        AntoinePressureUnit.KiloPascal => "kPa",
        AntoinePressureUnit.Pascal => "Pa",
        AntoinePressureUnit.MillimetreOfMercury => "mmHg",
    });

    public static WordTable<AntoineTemperatureUnit> AntoineTemperatureUnits { get; } = new(static unit => unit switch
    {
        AntoineTemperatureUnit.Celsius => "°C",
        AntoineTemperatureUnit.Kelvin => "K",
    });

    public static WordTable<Agent> Agents { get; } = new(agent => agent == Agent.ClassDPowder ? "class D powder" : Plain(agent));

    /// <summary>Words for the gas over the contents that need no substance.</summary>
    public static IReadOnlyList<string> Headspaces { get; } = ["air", "nitrogen", "argon", "hydrogen", "carbon dioxide", "oxygen", "vacuum"];

    /// <summary><c>MetalBlock</c> becomes <c>metal block</c>.</summary>
    internal static string Plain<T>(T value)
        where T : struct, Enum
    {
        string name = value.ToString();
        return string.Concat(name.Select((letter, index) =>
            index > 0 && char.IsAsciiLetterUpper(letter) ? $" {char.ToLowerInvariant(letter)}" : $"{char.ToLowerInvariant(letter)}"));
    }
}
