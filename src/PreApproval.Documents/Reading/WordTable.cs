using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents.Reading;

/// <summary>The words of the contract for one enumeration.</summary>
internal sealed class WordTable<T>(Func<T, string> wordOf)
    where T : struct, Enum
{
    private readonly Dictionary<string, T> _values = Enum.GetValues<T>().ToDictionary(wordOf, value => value, StringComparer.Ordinal);

    public IReadOnlyList<string> All { get; } = [.. Enum.GetValues<T>().Select(wordOf)];

    public string WordOf(T value) => wordOf(value);

    public bool TryFind(string word, out T value) => _values.TryGetValue(word, out value);
}

/// <summary>All word tables of the document.</summary>
internal static class Words
{
    public static WordTable<StepAction> Actions { get; } = new(Plain);

    public static WordTable<Role> Roles { get; } = new(Plain);

    public static WordTable<HeatSource> HeatSources { get; } = new(Plain);

    public static WordTable<Closure> Closures { get; } = new(Plain);

    public static WordTable<ReliefKind> ReliefKinds { get; } = new(Plain);

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
