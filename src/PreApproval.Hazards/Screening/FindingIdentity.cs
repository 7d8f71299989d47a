namespace PreApproval.Hazards.Screening;

/// <summary>Orders findings by their identifiers, without putting these together for every comparison.</summary>
internal static class FindingIdentity
{
    /// <summary>Ordinal order of <see cref="Finding.Id"/>; 0 for two with one identifier.</summary>
    public static int Compare(Finding one, Finding other)
    {
        var left = new Pieces(one);
        var right = new Pieces(other);
        ReadOnlySpan<char> a = [];
        ReadOnlySpan<char> b = [];
        while (true)
        {
            if (a.IsEmpty && !left.TryNext(out a))
            {
                return b.IsEmpty && !right.TryNext(out _) ? 0 : -1;
            }

            if (b.IsEmpty && !right.TryNext(out b))
            {
                return 1;
            }

            var length = Math.Min(a.Length, b.Length);
            if (a[..length].SequenceCompareTo(b[..length]) is not 0 and var order)
            {
                return order;
            }

            a = a[length..];
            b = b[length..];
        }
    }

    /// <summary>The pieces of an identifier one after the other, none of them empty.</summary>
    private ref struct Pieces(Finding finding)
    {
        private const int BeforePlaces = 4;

        private readonly IReadOnlyList<string> places = finding.Steps.Count == 0 ? finding.Materials : finding.Steps;
        private int at;

        public bool TryNext(out ReadOnlySpan<char> piece)
        {
            do
            {
                if (!Has(at))
                {
                    piece = [];
                    return false;
                }

                piece = Piece(at++);
            }
            while (piece.IsEmpty);

            return true;
        }

        // every place but the first has a plus before it
        private readonly int AfterPlaces => BeforePlaces + Math.Max(0, (2 * places.Count) - 1);

        private readonly bool Has(int index) => index < AfterPlaces || (finding.About is not null && index < AfterPlaces + 2);

        private readonly ReadOnlySpan<char> Piece(int index) => index switch
        {
            0 => finding.Code,
            1 or BeforePlaces - 1 => "/",
            2 => finding.Vessel ?? "-",
            _ when index < AfterPlaces => (index - BeforePlaces) % 2 == 0 ? places[(index - BeforePlaces) / 2] : "+",
            _ => index == AfterPlaces ? "/" : finding.About,
        };
    }
}
