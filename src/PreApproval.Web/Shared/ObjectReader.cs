using System.Buffers;
using System.Runtime.InteropServices;
using System.Text.Json;
using PreApproval.Documents;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Shared;

/// <summary>Takes the members of a small JSON object one by one and notes every fault with its path; what nobody took is unknown.</summary>
public sealed class ObjectReader
{
    /// <summary>Nobody reads more.</summary>
    private const int MostFaults = 200;

    private const int LongestName = 100;

    private readonly JsonElement _object;
    private readonly string _path;
    private readonly List<Fault> _faults;
    private readonly HashSet<string> _taken = new(StringComparer.Ordinal);
    private readonly List<ObjectReader> _inner = [];

    internal ObjectReader(JsonElement element, string path, List<Fault> faults) => (_object, _path, _faults) = (element, path, faults);

    /// <summary>Text that must be there, not blank and at most <paramref name="most"/> characters. Empty after a fault.</summary>
    public string Text(string name, int most)
    {
        string? text = OptionalText(name, most);
        if (text is null && !IsFaulty(name))
        {
            Note(name, "Required: text.");
        }
        else if (text is not null && string.IsNullOrWhiteSpace(text))
        {
            Note(name, "Must not be blank.");
        }

        return text ?? "";
    }

    /// <summary>Text, or null where it is absent or null.</summary>
    public string? OptionalText(string name, int most)
    {
        if (!TryTake(name, out JsonElement value))
        {
            return null;
        }

        if (value.ValueKind != JsonValueKind.String)
        {
            Note(name, "Expected text.");
            return null;
        }

        string? text;
        try
        {
            text = value.GetString();
        }
        catch (InvalidOperationException)
        {
            Note(name, "Not valid Unicode.");
            return null;
        }

        if (text!.Length > most)
        {
            Note(name, $"At most {most} characters; these are {text.Length}.");
        }
        else if (text.Contains('\0', StringComparison.Ordinal))
        {
            Note(name, "Must not contain the character U+0000.");
        }

        return text;
    }

    /// <summary>An integer of at least 1.</summary>
    public int Number(string name)
    {
        if (!TryTake(name, out JsonElement value))
        {
            Note(name, "Required: an integer of at least 1.");
            return 0;
        }

        if (value.ValueKind == JsonValueKind.Number && value.TryGetInt32(out int number) && number >= 1)
        {
            return number;
        }

        Note(name, "Expected an integer of at least 1.");
        return 0;
    }

    /// <summary>A word of an enumeration.</summary>
    public T Word<T>(string name)
        where T : struct, Enum
    {
        if (TryTake(name, out JsonElement value) && value.ValueKind == JsonValueKind.String && ApiJson.TryReadWord(value.GetString(), out T word))
        {
            return word;
        }

        Note(name, $"Expected one of: {ApiJson.Words<T>()}.");
        return default;
    }

    /// <summary>A UUID, or null where it is absent or null.</summary>
    public Guid? OptionalIdentifier(string name)
    {
        if (!TryTake(name, out JsonElement value))
        {
            return null;
        }

        if (value.ValueKind == JsonValueKind.String && value.TryGetGuid(out Guid id))
        {
            return id;
        }

        Note(name, "Expected a UUID, for instance 0198c0de-0000-7000-8000-000000000000.");
        return null;
    }

    /// <summary>The exact bytes of an object.</summary>
    public ReadOnlyMemory<byte> Raw(string name)
    {
        if (TryTake(name, out JsonElement value) && value.ValueKind == JsonValueKind.Object)
        {
            return JsonMarshal.GetRawUtf8Value(value).ToArray();
        }

        Note(name, "Required: an object.");
        return default;
    }

    /// <summary>The object without one of its members, as JSON.</summary>
    public ReadOnlyMemory<byte> Without(string name)
    {
        var bytes = new ArrayBufferWriter<byte>();
        using (var writer = new Utf8JsonWriter(bytes))
        {
            writer.WriteStartObject();
            foreach (JsonProperty member in _object.EnumerateObject().Where(m => !m.NameEquals(name)))
            {
                member.WriteTo(writer);
            }

            writer.WriteEndObject();
        }

        return bytes.WrittenMemory;
    }

    /// <summary>A list of objects; absent or null is empty.</summary>
    public IReadOnlyList<ObjectReader> Objects(string name, int most)
    {
        if (!TryTake(name, out JsonElement value))
        {
            return [];
        }

        if (value.ValueKind != JsonValueKind.Array)
        {
            Note(name, "Expected a list.");
            return [];
        }

        if (value.GetArrayLength() > most)
        {
            Note(name, $"At most {most} entries.");
            return [];
        }

        List<ObjectReader> readers = [];
        int index = 0;
        foreach (JsonElement element in value.EnumerateArray())
        {
            if (element.ValueKind == JsonValueKind.Object)
            {
                readers.Add(new ObjectReader(element, $"{PathOf(name)}/{index}", _faults));
            }
            else
            {
                _faults.Add(new Fault($"{PathOf(name)}/{index}", "Expected an object."));
            }

            index++;
        }

        _inner.AddRange(readers);
        return readers;
    }

    /// <summary>Null when all is well. Unknown members make it malformed (400), other faults invalid (422).</summary>
    public Refusal? Finish()
    {
        List<Fault> unknown = [.. Unknown().Take(MostFaults)];
        if (unknown.Count > 0)
        {
            return new Refusal(RefusalKind.Malformed, "The body has members that are not known.", [.. unknown.Concat(_faults).Take(MostFaults)]);
        }

        return _faults.Count > 0 ? new Refusal(RefusalKind.Invalid, "The body has faults.", [.. _faults.Take(MostFaults)]) : null;
    }

    private IEnumerable<Fault> Unknown()
    {
        foreach (JsonProperty member in _object.EnumerateObject().Where(m => !_taken.Contains(m.Name)))
        {
            yield return new Fault(PathOf(member.Name), $"Unknown member. Known here: {string.Join(", ", _taken)}.");
        }

        foreach (Fault fault in _inner.SelectMany(i => i.Unknown()))
        {
            yield return fault;
        }
    }

    private bool TryTake(string name, out JsonElement value)
    {
        _taken.Add(name);
        return _object.TryGetProperty(name, out value) && value.ValueKind != JsonValueKind.Null;
    }

    private bool IsFaulty(string name) => _faults.Exists(f => string.Equals(f.Path, PathOf(name), StringComparison.Ordinal));

    private void Note(string name, string message) => _faults.Add(new Fault(PathOf(name), message));

    private string PathOf(string name) => $"{_path}/{(name.Length > LongestName ? name[..LongestName] : name).Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal)}";
}
