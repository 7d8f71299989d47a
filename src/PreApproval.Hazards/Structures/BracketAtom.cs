namespace PreApproval.Hazards.Structures;

/// <summary>Reads an atom in brackets: isotope, symbol, stereo mark, hydrogens, charge, class (OpenSMILES 1.0, section 3.1).</summary>
internal ref struct BracketAtom(string text, int start)
{
    private const int HighestCharge = 15;
    private readonly string _text = text;
    private readonly int _start = start;
    private int _at = start + 1;

    private readonly char Current => _at < _text.Length ? _text[_at] : '\0';

    /// <summary>Chirality is '\0' for none, '@' anticlockwise, '2' clockwise, 'x' another kind that is accepted and not kept.</summary>
    public StructureError? Read(out DraftAtom atom, out char chirality, out int end)
    {
        atom = new DraftAtom { Position = _start, InBrackets = true, Chirality = -1 };
        chirality = '\0';
        end = _start;
        if (Number(3) is { } isotope)
        {
            atom.Isotope = (ushort)isotope;
        }

        if (Symbol(ref atom) is { } error)
        {
            return error;
        }

        if (Chirality(out chirality) is { } stereo)
        {
            return stereo;
        }

        if (Current == 'H')
        {
            _at++;
            atom.Hydrogens = (byte)(Number(1) ?? 1);
            if (atom.Element == Elements.Hydrogen && atom.Hydrogens > 1)
            {
                return new StructureError(_at - 1, "a hydrogen bears at most one other");
            }
        }

        if (Charge(ref atom) is { } charge)
        {
            return charge;
        }

        if (Current == ':')
        {
            _at++;
            if (Number(4) is null)
            {
                return new StructureError(_at, "an atom class after : is a number");
            }
        }

        if (_at >= _text.Length)
        {
            return new StructureError(_start, "this bracket is never closed");
        }

        if (Current != ']')
        {
            return new StructureError(_at, "not understood inside the brackets; the order is isotope, symbol, @, H with number, charge, : with number");
        }

        end = _at + 1;
        return null;
    }

    private StructureError? Symbol(ref DraftAtom atom)
    {
        if (Current == '*')
        {
            return new StructureError(_at, "the wildcard * is not read: a formula needs to know every atom");
        }

        if (char.IsAsciiLetterLower(Current))
        {
            var length = _text.AsSpan(_at).StartsWith("se") || _text.AsSpan(_at).StartsWith("as") || _text.AsSpan(_at).StartsWith("te") ? 2 : 1;
            Span<char> symbol = stackalloc char[length];
            _text.AsSpan(_at, length).CopyTo(symbol);
            symbol[0] = char.ToUpperInvariant(symbol[0]);
            var number = Elements.Number(symbol);
            if (!Elements.IsAromaticSymbol(number))
            {
                return new StructureError(_at, $"{Current} is no aromatic atom (b c n o p s se as te)");
            }

            _at += length;
            atom.Element = (byte)number;
            atom.LowerCase = true;
            return null;
        }

        if (!char.IsAsciiLetterUpper(Current))
        {
            return new StructureError(_at, "brackets hold the symbol of an element, for instance [Na+]");
        }

        var two = _at + 1 < _text.Length && char.IsAsciiLetterLower(_text[_at + 1]) ? Elements.Number(_text.AsSpan(_at, 2)) : 0;
        var element = two > 0 ? two : Elements.Number(_text.AsSpan(_at, 1));
        if (element == 0 || (two == 0 && _at + 1 < _text.Length && char.IsAsciiLetterLower(_text[_at + 1])))
        {
            return new StructureError(_at, "there is no such element");
        }

        _at += two > 0 ? 2 : 1;
        atom.Element = (byte)element;
        return null;
    }

    private StructureError? Chirality(out char chirality)
    {
        chirality = '\0';
        if (Current != '@')
        {
            return null;
        }

        _at++;
        chirality = '@';
        if (Current == '@')
        {
            _at++;
            chirality = '2';
            return null;
        }

        var rest = _text.AsSpan(_at);
        if (rest.StartsWith("TH1") || rest.StartsWith("TH2"))
        {
            chirality = rest[2] == '2' ? '2' : '@';
            _at += 3;
            return null;
        }

        if (rest.StartsWith("AL") || rest.StartsWith("SP") || rest.StartsWith("TB") || rest.StartsWith("OH"))
        {
            chirality = 'x';
            _at += 2;
            if (Number(2) is null)
            {
                return new StructureError(_at, "a number must follow the kind of stereo centre");
            }
        }

        return null;
    }

    private StructureError? Charge(ref DraftAtom atom)
    {
        if (Current is not ('+' or '-'))
        {
            return null;
        }

        var place = _at;
        var sign = Current;
        var count = 0;
        while (Current == sign)
        {
            count++;
            _at++;
        }

        if (count == 1 && Number(2) is { } number)
        {
            count = number;
        }

        if (count > HighestCharge)
        {
            return new StructureError(place, $"charges go up to {HighestCharge}");
        }

        atom.Charge = (sbyte)(sign == '+' ? count : -count);
        return null;
    }

    private int? Number(int digits)
    {
        int? value = null;
        for (var i = 0; i < digits && char.IsAsciiDigit(Current); i++)
        {
            value = ((value ?? 0) * 10) + Current - '0';
            _at++;
        }

        return value;
    }
}
