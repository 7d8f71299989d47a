using System.Diagnostics.CodeAnalysis;

namespace PreApproval.Hazards.Substances;

/// <summary>A catalogue while its data files are being read: the substances so far, the known sources, the faults found.</summary>
internal sealed class CatalogDraft(Dictionary<string, string> references)
{
    // By the digits of the CAS number: a lookup without cutting the cell out as a string.
    private readonly Dictionary<long, SubstanceDraft> _byDigits = [];
    private string[] _lastSource = [""];

    public List<string> Faults { get; } = [];

    /// <summary>In the order of the identities.</summary>
    public List<SubstanceDraft> Substances { get; } = [];

    public void Add(SubstanceDraft draft)
    {
        if (_byDigits.TryAdd(Digits(draft.Identity.Cas), draft))
        {
            Substances.Add(draft);
        }
        else
        {
            Faults.Add(draft.Row.Fault(IdentityRows.Cas, $"is listed twice, first in line {_byDigits[Digits(draft.Identity.Cas)].Row.Line}; a CAS number stands for one substance"));
        }
    }

    /// <summary>The substance a row belongs to; a fault where it is not among the identities.</summary>
    public bool TryFind(TsvRow row, int column, [NotNullWhen(true)] out SubstanceDraft? draft)
    {
        if (_byDigits.TryGetValue(Digits(row.Cell(column)), out draft) && row.Cell(column).SequenceEqual(draft.Identity.Cas))
        {
            return true;
        }

        Faults.Add(row.Fault(column, "is not among the identities; add it there first or mend the number"));
        draft = null;
        return false;
    }

    /// <summary>The source of a row as a list of one, shared by the rows of a file; a fault where it has no reference.</summary>
    public bool TrySource(TsvRow row, int column, out string[] source)
    {
        var cell = row.Cell(column);
        source = _lastSource;
        if (cell.SequenceEqual(_lastSource[0]) && cell.Length > 0)
        {
            return true;
        }

        var key = cell.ToString();
        if (key.Length > 0 && references.ContainsKey(key))
        {
            source = _lastSource = [key];
            return true;
        }

        Faults.Add(row.Fault(column, "give the key of an entry in sources.bib"));
        return false;
    }

    /// <summary>The quality of a row; a fault where it is none.</summary>
    public bool TryQuality(TsvRow row, int column, out Quality quality)
    {
        quality = row.Cell(column) switch
        {
            "measured" => Quality.Measured,
            "correlated" => Quality.Correlated,
            "estimated" => Quality.Estimated,
            "assumed" => Quality.Assumed,
            _ => (Quality)(-1),
        };
        if (quality >= Quality.Measured)
        {
            return true;
        }

        Faults.Add(row.Fault(column, "give measured, correlated, estimated or assumed"));
        return false;
    }

    private static long Digits(ReadOnlySpan<char> cas)
    {
        long digits = 0;
        foreach (var c in cas)
        {
            if (char.IsAsciiDigit(c))
            {
                digits = (digits * 10) + (c - '0');
            }
            else if (c != '-')
            {
                return -1;
            }
        }

        return digits;
    }
}
