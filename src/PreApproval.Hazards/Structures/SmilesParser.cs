namespace PreApproval.Hazards.Structures;

/// <summary>Turns the characters of a SMILES into atoms and bonds (OpenSMILES 1.0, section 2, grammar).</summary>
internal ref struct SmilesParser(string text, MoleculeDraft draft)
{
    private readonly string _text = text;
    private readonly MoleculeDraft _draft = draft;
    private readonly Stack<(int Atom, int Position)> _branches = new();
    private RingClosures? _rings;
    private int _at;
    private int _previous = -1;
    private WrittenBond _bond;
    private sbyte _direction;
    private int _bondAt = -1;

    public StructureError? Read()
    {
        if (_text.Length == 0)
        {
            return new StructureError(0, "the text is empty; a structure begins with an atom, for instance C");
        }

        while (_at < _text.Length)
        {
            if (Step() is { } error)
            {
                return error;
            }
        }

        return Finish();
    }

    private StructureError? Step()
    {
        var c = _text[_at];
        switch (c)
        {
            case '[':
                return BracketAtom();
            case '(':
                if (_previous < 0 || _bondAt >= 0)
                {
                    return Fault("a branch must follow an atom");
                }

                _branches.Push((_previous, _at++));
                return _at < _text.Length && _text[_at] is ')' or '(' ? Fault("a branch begins with an atom, a bond or a dot") : null;
            case ')':
                if (_bondAt >= 0)
                {
                    return new StructureError(_bondAt, "the bond leads to no atom");
                }

                if (_previous < 0)
                {
                    return Fault("a part must follow the dot");
                }

                if (!_branches.TryPop(out var branch))
                {
                    return Fault("this parenthesis was never opened");
                }

                _previous = branch.Atom;
                _at++;
                return null;
            case '.':
                if (_previous < 0 || _bondAt >= 0)
                {
                    return Fault("the dot must stand between two parts, after an atom");
                }

                _previous = -1;
                _at++;
                return _at == _text.Length ? Fault("a part must follow the dot") : null;
            case '-' or '=' or '#' or '$' or ':' or '/' or '\\':
                return BondSymbol(c);
            case '%' or (>= '0' and <= '9'):
                return RingClosure();
            case '*':
                return Fault("the wildcard * is not read: a formula needs to know every atom");
            case '>':
                return Fault("this is a reaction; give the structure of one substance");
            default:
                return OrganicAtom();
        }
    }

    private StructureError? BondSymbol(char c)
    {
        if (_previous < 0)
        {
            return Fault("a bond must follow an atom");
        }

        if (_bondAt >= 0)
        {
            return Fault("two bonds in a row");
        }

        _bondAt = _at++;
        _bond = c switch
        {
            '=' => WrittenBond.Double,
            '#' => WrittenBond.Triple,
            '$' => WrittenBond.Quadruple,
            ':' => WrittenBond.Aromatic,
            _ => WrittenBond.Single,
        };
        _direction = c switch
        {
            '/' => (sbyte)1,
            '\\' => (sbyte)-1,
            _ => (sbyte)0,
        };
        if (_direction != 0)
        {
            // a stereo mark leaves the bond as it is: between aromatic atoms it may be aromatic
            _bond = WrittenBond.Default;
        }

        return null;
    }

    private StructureError? OrganicAtom()
    {
        var start = _at;
        var c = _text[_at];
        var length = 1;
        var element = c switch
        {
            'B' => Next('r') ? Elements.Bromine : Elements.Boron,
            'C' => Next('l') ? Elements.Chlorine : Elements.Carbon,
            'N' => Elements.Nitrogen,
            'O' => Elements.Oxygen,
            'F' => Elements.Fluorine,
            'P' => Elements.Phosphorus,
            'S' => Elements.Sulfur,
            'I' => Elements.Iodine,
            'b' => Elements.Boron,
            'c' => Elements.Carbon,
            'n' => Elements.Nitrogen,
            'o' => Elements.Oxygen,
            'p' => Elements.Phosphorus,
            's' => Elements.Sulfur,
            _ => 0,
        };
        if (element is Elements.Bromine or Elements.Chlorine)
        {
            length = 2;
        }

        if (element == 0)
        {
            return NoAtom(c);
        }

        _at += length;
        var atom = new DraftAtom { Position = start, Element = (byte)element, LowerCase = char.IsAsciiLetterLower(c), Chirality = -1 };
        return Place(atom);
    }

    private readonly StructureError NoAtom(char c)
    {
        var two = _at + 1 < _text.Length && char.IsAsciiLetterLower(_text[_at + 1]) ? _text.Substring(_at, 2) : "";
        var one = c.ToString();
        if (two.Length == 2 && Elements.Number(two) > 0)
        {
            return Fault($"{two} must be written in brackets: [{two}]");
        }

        return char.IsAsciiLetter(c) && Elements.Number(one) > 0
            ? Fault($"{one} must be written in brackets: [{one}]")
            : Fault(char.IsAsciiLetter(c) ? $"{c} is no atom that may stand without brackets (B C N O F P S Cl Br I, b c n o p s)" : $"the character {Shown(c)} has no meaning in a structure");
    }

    private readonly bool Next(char c) => _at + 1 < _text.Length && _text[_at + 1] == c;

    private StructureError? BracketAtom()
    {
        var bracket = new BracketAtom(_text, _at);
        if (bracket.Read(out var atom, out var chirality, out var end) is { } error)
        {
            return error;
        }

        _at = end;
        var marked = chirality is '@' or '2';
        var index = _draft.AtomCount;
        if (marked)
        {
            var mark = _draft.Mark(index, chirality == '2');
            if (_previous >= 0)
            {
                mark.Neighbours.Add(_previous);
            }

            if (atom.Hydrogens == 1)
            {
                mark.Neighbours.Add(MoleculeDraft.ImplicitHydrogen);
            }
        }

        return Place(atom);
    }

    private StructureError? Place(DraftAtom atom)
    {
        if (_draft.AtomCount == SmilesReader.MaximumAtoms)
        {
            return new StructureError(atom.Position, $"this is atom {SmilesReader.MaximumAtoms + 1}; structures up to {SmilesReader.MaximumAtoms} atoms are read");
        }

        var index = _draft.Add(atom);
        if (_previous >= 0)
        {
            _draft.Add(new DraftBond { First = _previous, Second = index, Written = _bond, Direction = _direction });
            _draft.AddToMark(_previous, index);
        }

        _previous = index;
        NoBond();
        return null;
    }

    private void NoBond() => (_bond, _direction, _bondAt) = (WrittenBond.Default, 0, -1);

    private StructureError? RingClosure()
    {
        var start = _at;
        if (_previous < 0)
        {
            return Fault("a ring number must follow an atom");
        }

        int number;
        if (_text[_at] == '%')
        {
            if (_at + 2 >= _text.Length || !char.IsAsciiDigit(_text[_at + 1]) || !char.IsAsciiDigit(_text[_at + 2]))
            {
                return Fault("% must be followed by two digits");
            }

            number = ((_text[_at + 1] - '0') * 10) + _text[_at + 2] - '0';
            _at += 3;
        }
        else
        {
            number = _text[_at++] - '0';
        }

        _rings ??= new RingClosures(_draft);
        var error = _rings.Use(number, start, _previous, _bond, _direction);
        NoBond();
        return error;
    }

    private readonly StructureError? Finish()
    {
        if (_bondAt >= 0)
        {
            return new StructureError(_bondAt, "the bond leads to no atom");
        }

        if (_branches.TryPeek(out var branch))
        {
            return new StructureError(branch.Position, "this parenthesis is never closed");
        }

        return _rings?.Unclosed();
    }

    private readonly StructureError Fault(string message) => new(Math.Min(_at, _text.Length), message);

    private static string Shown(char c) => char.IsControl(c) ? $"U+{(int)c:X4}" : c == ' ' ? "space" : $"'{c}'";
}
