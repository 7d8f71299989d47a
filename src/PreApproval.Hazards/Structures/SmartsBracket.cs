namespace PreApproval.Hazards.Structures;

/// <summary>Reads what a pattern asks of one atom, in brackets: terms joined by ! and &amp; (or nothing), then comma, then semicolon.</summary>
internal ref struct SmartsBracket(string text, int start, int end, int depth)
{
    private readonly string _text = text;
    private readonly int _start = start;
    private readonly int _end = end;
    private readonly int _depth = depth;
    private StructureError? _error;
    private int _at = start + 1;

    private readonly char Current => _at < _end ? _text[_at] : '\0';

    public AtomTest? Read(out int after, out StructureError? error)
    {
        var test = IsHydrogenAtom() ? HydrogenAtom() : Low();
        if (_error is null && Current != ']')
        {
            _error = new StructureError(Math.Min(_at, _end), _at >= _end ? "this bracket is never closed" : "this term is not read in a pattern");
            if (_at >= _end)
            {
                _error = _error with { Position = _start };
            }
        }

        after = _at + 1;
        error = _error;
        return _error is null ? test : null;
    }

    // [H], [2H], [H+]: the atom; anywhere else H counts hydrogens
    private readonly bool IsHydrogenAtom()
    {
        var i = _at;
        while (i < _end && char.IsAsciiDigit(_text[i]))
        {
            i++;
        }

        if (i >= _end || _text[i] != 'H')
        {
            return false;
        }

        i++;
        while (i < _end && _text[i] is '+' or '-')
        {
            i++;
        }

        return i < _end && _text[i] == ']';
    }

    private AtomTest HydrogenAtom()
    {
        var test = new AtomTest(AtomTerm.Element, Elements.Hydrogen);
        if (Number() is { } isotope)
        {
            test = And(test, new AtomTest(AtomTerm.Isotope, isotope));
        }

        _at++;
        return Current is '+' or '-' ? And(test, Charge()) : test;
    }

    private static AtomTest And(AtomTest left, AtomTest right) => new(AtomTerm.And, 0, left, right);

    private AtomTest Low()
    {
        var test = Or();
        while (Current == ';')
        {
            _at++;
            test = And(test, Or());
        }

        return test;
    }

    private AtomTest Or()
    {
        var test = High();
        while (Current == ',')
        {
            _at++;
            test = new AtomTest(AtomTerm.Or, 0, test, High());
        }

        return test;
    }

    private AtomTest High()
    {
        var test = Not();
        while (_error is null && Current is not (']' or ',' or ';' or '\0'))
        {
            if (Current == '&')
            {
                _at++;
            }

            test = And(test, Not());
        }

        return test;
    }

    private AtomTest Not()
    {
        var negated = false;
        while (Current == '!')
        {
            negated = !negated;
            _at++;
        }

        var term = Term();
        return negated ? new AtomTest(AtomTerm.Not, 0, term) : term;
    }

    private AtomTest Term()
    {
        if (_error is not null || _at >= _end)
        {
            return Fault("a term is missing");
        }

        var c = Current;
        if (char.IsAsciiLetterUpper(c) && _at + 1 < _end && char.IsAsciiLetterLower(_text[_at + 1]) && Elements.Number(_text.AsSpan(_at, 2)) is > 0 and var element)
        {
            _at += 2;
            return new AtomTest(AtomTerm.AliphaticElement, element);
        }

        if (_at + 1 < _end && _text.AsSpan(_at, 2) is "se" or "as" or "te")
        {
            element = c switch
            {
                's' => Elements.Selenium,
                'a' => Elements.Arsenic,
                _ => Elements.Tellurium,
            };
            _at += 2;
            return new AtomTest(AtomTerm.AromaticElement, element);
        }

        switch (c)
        {
            case '*':
                _at++;
                return AtomTest.Any;
            case 'A':
                return Plain(AtomTerm.Aliphatic);
            case 'a':
                return Plain(AtomTerm.Aromatic);
            case 'D':
                return Counted(AtomTerm.Degree, 1);
            case 'X':
                return Counted(AtomTerm.Connections, 1);
            case 'H':
                return Counted(AtomTerm.Hydrogens, 1);
            case 'v':
                return Counted(AtomTerm.Valence, 1);
            case 'R':
                return Ring(AtomTerm.RingCount);
            case 'r':
                return Ring(AtomTerm.RingSize);
            case 'x':
                return Ring(AtomTerm.RingBonds);
            case '+' or '-':
                return Charge();
            case '#':
                _at++;
                return Number() is { } number and > 0 and < 119 ? new AtomTest(AtomTerm.Element, number) : Fault("# is followed by an atomic number");
            case '$':
                return Environment();
            case '@':
                return Fault("stereo marks are not read in patterns");
            case >= '0' and <= '9':
                return new AtomTest(AtomTerm.Isotope, Number()!.Value);
        }

        Span<char> symbol = [char.ToUpperInvariant(c)];
        var one = Elements.Number(symbol);
        var aromatic = char.IsAsciiLetterLower(c);
        if (one == 0 || (aromatic && !Elements.IsAromaticSymbol(one)))
        {
            return Fault("this term is not read in a pattern");
        }

        _at++;
        return new AtomTest(aromatic ? AtomTerm.AromaticElement : AtomTerm.AliphaticElement, one);
    }

    private AtomTest Plain(AtomTerm term)
    {
        _at++;
        return new AtomTest(term);
    }

    private AtomTest Counted(AtomTerm term, int otherwise)
    {
        _at++;
        return new AtomTest(term, Number() ?? otherwise);
    }

    private AtomTest Ring(AtomTerm term)
    {
        _at++;
        if (Number() is not { } number)
        {
            return new AtomTest(AtomTerm.InRing);
        }

        return number == 0 ? new AtomTest(AtomTerm.Not, 0, new AtomTest(AtomTerm.InRing)) : new AtomTest(term, number);
    }

    private AtomTest Charge()
    {
        var sign = Current;
        var count = 0;
        while (Current == sign)
        {
            count++;
            _at++;
        }

        if (count == 1 && Number() is { } number)
        {
            count = number;
        }

        return new AtomTest(AtomTerm.Charge, sign == '+' ? count : -count);
    }

    private AtomTest Environment()
    {
        var open = _at + 1;
        if (open >= _end || _text[open] != '(')
        {
            return Fault("$ is followed by a pattern in parentheses");
        }

        var nesting = 0;
        var close = open;
        for (; close < _end; close++)
        {
            nesting += _text[close] switch
            {
                '(' => 1,
                ')' => -1,
                _ => 0,
            };
            if (nesting == 0)
            {
                break;
            }
        }

        if (close >= _end)
        {
            _at = open;
            return Fault("this parenthesis is never closed");
        }

        var pattern = SmartsReader.Environment(_text, open + 1, close, _depth, out _error);
        _at = close + 1;
        return pattern is null ? AtomTest.Any : new AtomTest(AtomTerm.Environment, 0, null, null, pattern);
    }

    private int? Number()
    {
        int? value = null;
        for (var i = 0; i < 4 && char.IsAsciiDigit(Current); i++)
        {
            value = ((value ?? 0) * 10) + Current - '0';
            _at++;
        }

        return value;
    }

    private AtomTest Fault(string message)
    {
        _error ??= new StructureError(Math.Min(_at, _end), message);
        return AtomTest.Any;
    }
}
