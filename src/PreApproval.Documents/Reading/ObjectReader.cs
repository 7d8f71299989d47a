using System.Globalization;
using System.Text;
using PreApproval.Documents.Units;

namespace PreApproval.Documents.Reading;

/// <summary>
/// Takes the members of one JSON object by name and notes every fault. A faulty or absent member gives null; what was
/// never asked for is reported by <see cref="End"/> as unknown.
/// </summary>
internal sealed class ObjectReader
{
    private readonly Dictionary<string, JsonTree> _members = new(StringComparer.Ordinal);
    private readonly List<string> _asked = [];
    private readonly FaultList _faults;

    public ObjectReader(JsonTree value, string path, string what, FaultList faults)
    {
        (Path, _faults) = (path, faults);
        if (value is JsonTree.Record record)
        {
            IsObject = true;
            foreach ((string name, JsonTree member) in record.Members)
            {
                _members[name] = member;
            }
        }
        else
        {
            faults.Invalid(path, $"must be {what}, but is {value.Kind}");
        }
    }

    public bool IsObject { get; }

    public string Path { get; }

    public bool Has(string name) => _members.ContainsKey(name);

    public string PathOf(string name) => JsonPointer.Member(Path, name);

    /// <summary>The member, or null; notes a fault when it is required and absent.</summary>
    public JsonTree? Take(string name, string? required = null)
    {
        _asked.Add(name);
        if (_members.TryGetValue(name, out JsonTree? value))
        {
            return value;
        }

        if (required is not null && IsObject)
        {
            _faults.Invalid(PathOf(name), $"is missing: {required}");
        }

        return null;
    }

    public string? Text(string name, TextLimit limit, string? required = null) =>
        Take(name, required) is { } value ? TextOf(value, PathOf(name), limit, _faults) : null;

    public T? Word<T>(string name, WordTable<T> words, string? required = null)
        where T : struct, Enum
    {
        return Take(name, required) is { } value ? WordOf(value, PathOf(name), words, _faults) : null;
    }

    public bool? Truth(string name)
    {
        switch (Take(name))
        {
            case null:
                return null;
            case JsonTree.Truth truth:
                return truth.Value;
            case { } other:
                _faults.Invalid(PathOf(name), $"must be true or false, but is {other.Kind}");
                return null;
        }
    }

    public double? Number(string name, string what, string? required = null) =>
        Take(name, required) is { } value ? NumberOf(value, PathOf(name), what, _faults) : null;

    public DateOnly? Date(string name, string? required = null)
    {
        if (Take(name, required) is not { } value)
        {
            return null;
        }

        if (value is JsonTree.Text text && DateOnly.TryParseExact(text.Value, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly date))
        {
            return date;
        }

        _faults.Invalid(PathOf(name), $"must be a date of the calendar as \"2031-05-28\" (year-month-day), but is {Described(value)}");
        return null;
    }

    public Quantity? Quantity(string name, MemberUnits units, string? required = null) =>
        Take(name, required) is { } value ? QuantityOf(value, PathOf(name), units, _faults) : null;

    public T? Object<T>(string name, Func<JsonTree, string, T?> read, string? required = null)
        where T : class
    {
        return Take(name, required) is { } value ? read(value, PathOf(name)) : null;
    }

    /// <summary>A list of values; the places of faulty items are kept by <paramref name="read"/>'s placeholders.</summary>
    public IReadOnlyList<T>? List<T>(string name, int most, Func<JsonTree, string, T> read, string? required = null, int least = 0)
    {
        switch (Take(name, required))
        {
            case null:
                return null;
            case JsonTree.List list:
                if (list.Items.Count < least)
                {
                    _faults.Invalid(PathOf(name), "is empty: at least one is needed");
                }

                if (list.Items.Count > most)
                {
                    _faults.Invalid(PathOf(name), string.Create(CultureInfo.InvariantCulture, $"has {list.Items.Count} entries; at most {most} are allowed"));
                    return null;
                }

                return [.. list.Items.Select((item, index) => read(item, JsonPointer.Item(PathOf(name), index)))];
            case { } other:
                _faults.Invalid(PathOf(name), $"must be an array, but is {other.Kind}");
                return null;
        }
    }

    /// <summary>Reports members that nobody asked for.</summary>
    public void End()
    {
        foreach (string name in _members.Keys.Where(name => !_asked.Contains(name, StringComparer.Ordinal)))
        {
            string hint = NearName.Of(name, _asked) is { } near
                ? $"did you mean \"{near}\"?"
                : $"known here: {string.Join(", ", _asked)}";
            _faults.Add(DocumentRefusalKind.UnknownMember, PathOf(name), $"is not a known member; {hint}");
        }
    }

    public static string? TextOf(JsonTree value, string path, TextLimit limit, FaultList faults)
    {
        if (value is not JsonTree.Text { Value: var text })
        {
            faults.Invalid(path, $"must be a string, but is {value.Kind}");
            return null;
        }

        if (string.IsNullOrWhiteSpace(text))
        {
            faults.Invalid(path, "is blank; write something or leave the member out");
            return null;
        }

        int length = text.EnumerateRunes().Count();
        if (length > limit.Most)
        {
            faults.Invalid(path, string.Create(CultureInfo.InvariantCulture, $"has {length} characters; at most {limit.Most} are allowed"));
            return null;
        }

        if (text.EnumerateRunes().FirstOrDefault(InvisibleText.Has) is { Value: > 0 and var unseen })
        {
            faults.Invalid(path, string.Create(CultureInfo.InvariantCulture, $"holds the invisible character U+{unseen:X4}; remove it"));
            return null;
        }

        if (text.EnumerateRunes().FirstOrDefault(rune => IsRefusedControl(rune, limit.ManyLines)) is { Value: var code } && (code != 0 || text.Contains('\0', StringComparison.Ordinal)))
        {
            faults.Invalid(path, string.Create(CultureInfo.InvariantCulture, $"holds the control character U+{code:X4}; remove it"));
            return null;
        }

        return text;
    }

    public static T? WordOf<T>(JsonTree value, string path, WordTable<T> words, FaultList faults)
        where T : struct, Enum
    {
        if (value is JsonTree.Text { Value: var text })
        {
            if (words.TryFind(text, out T word))
            {
                return word;
            }

            string hint = words.Near(text) is { } near ? $"did you mean \"{near}\"? " : "";
            faults.Invalid(path, $"\"{Shown.Text(text)}\" is not known here; {hint}Allowed: {Shown.Choice(words.All)}");
            return null;
        }

        faults.Invalid(path, $"must be one of the words {Shown.Choice(words.All)}, but is {value.Kind}");
        return null;
    }

    public static double? NumberOf(JsonTree value, string path, string what, FaultList faults)
    {
        if (value is not JsonTree.Number { Value: var number })
        {
            string hint = value is JsonTree.Text ? " (write it without quotes)" : "";
            faults.Invalid(path, $"must be {what} as a number, but is {Described(value)}{hint}");
            return null;
        }

        if (!double.IsFinite(number))
        {
            faults.Invalid(path, "is too large a number; at most 1.7e308 can be kept");
            return null;
        }

        return number;
    }

    public static Quantity? QuantityOf(JsonTree value, string path, MemberUnits units, FaultList faults)
    {
        string example = $"{{\"value\": 20, \"unit\": \"{units.Symbols[0]}\"}}";
        if (value is not JsonTree.Record)
        {
            faults.Invalid(path, $"must be {units.What} with its unit, for instance {example}, but is {Described(value)}");
            return null;
        }

        var reader = new ObjectReader(value, path, units.What, faults);
        double? number = reader.Number("value", units.What, $"{units.What} has a value and a unit, for instance {example}");
        string? unit = null;
        if (reader.Take("unit", $"allowed units: {Shown.Choice(units.Symbols)}") is { } given)
        {
            unit = UnitOf(given, reader.PathOf("unit"), units, faults);
        }

        reader.End();
        return number is { } n && unit is not null ? new Quantity(n, unit) : null;
    }

    private static string? UnitOf(JsonTree value, string path, MemberUnits units, FaultList faults)
    {
        if (value is not JsonTree.Text { Value: var spelling })
        {
            faults.Invalid(path, $"must be a string: {Shown.Choice(units.Symbols)}; but is {value.Kind}");
            return null;
        }

        if (!UnitTable.TryFind(spelling, out Unit? unit))
        {
            string hint = UnitHint.Of(spelling, units) is { } near ? $"did you mean \"{near}\"? " : "";
            faults.Invalid(path, $"\"{Shown.Text(spelling)}\" is no unit of the contract; {hint}Allowed here: {Shown.Choice(units.Symbols)}");
            return null;
        }

        if (!units.Allows(unit))
        {
            faults.Invalid(path, $"{unit.Symbol} does not measure {units.What}; allowed here: {Shown.Choice(units.Symbols)}");
            return null;
        }

        return spelling;
    }

    private static bool IsRefusedControl(Rune rune, bool manyLines) =>
        rune.Value < 0x20 ? !(manyLines && rune.Value is '\n' or '\r' or '\t') : rune.Value == 0x7F;

    private static string Described(JsonTree value) => value switch
    {
        JsonTree.Text text => $"the string \"{Shown.Text(text.Value)}\"",
        JsonTree.Number number => $"the number {Shown.Number(number.Value)}",
        _ => value.Kind,
    };
}
