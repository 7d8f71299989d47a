using System.Numerics;

namespace PreApproval.Hazards.Structures;

/// <summary>Sums of cycles over the field of two elements, kept in echelon form.</summary>
internal sealed class CycleSpace(int bonds)
{
    private readonly List<(int Pivot, ulong[] Row)> _rows = [];
    private readonly ulong[] _work = new ulong[(bonds + 63) / 64];

    public int Rank => _rows.Count;

    public bool IsIndependent(ulong[] cycle) => Reduce(cycle) >= 0;

    public void Add(ulong[] cycle)
    {
        var pivot = Reduce(cycle);
        if (pivot >= 0)
        {
            _rows.Add((pivot, [.. _work]));
        }
    }

    private int Reduce(ulong[] cycle)
    {
        cycle.CopyTo(_work, 0);
        foreach (var (pivot, row) in _rows)
        {
            if ((_work[pivot >> 6] >> pivot & 1) != 0)
            {
                for (var i = 0; i < row.Length; i++)
                {
                    _work[i] ^= row[i];
                }
            }
        }

        for (var i = 0; i < _work.Length; i++)
        {
            if (_work[i] != 0)
            {
                return (i << 6) + BitOperations.TrailingZeroCount(_work[i]);
            }
        }

        return -1;
    }
}
