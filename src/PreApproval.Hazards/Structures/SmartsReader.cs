using System.Diagnostics.CodeAnalysis;

namespace PreApproval.Hazards.Structures;

/// <summary>Reads the subset of SMARTS named in docs/methods/structures.md. Not read: stereo, component grouping ( ).( ), reactions, h, ^.</summary>
internal ref struct SmartsReader
{
    private const int MaximumDepth = 8;
    private readonly string _text;
    private readonly int _end;
    private readonly int _depth;
    private readonly List<AtomTest> _atoms = [];
    private readonly List<PatternBond> _bonds = [];
    private readonly Dictionary<int, (int Atom, ushort? Bond, int Position)> _rings = [];
    private readonly Stack<(int Atom, int Position)> _branches = new();
    private StructureError? _error;
    private int _at;
    private int _previous = -1;

    private SmartsReader(string text, int start, int end, int depth)
    {
        _text = text;
        _at = start;
        _end = end;
        _depth = depth;
    }

    private readonly char Current => _at < _end ? _text[_at] : '\0';

    public static bool TryRead(string text, int depth, [NotNullWhen(true)] out SubstructurePattern? pattern, [NotNullWhen(false)] out StructureError? error) =>
        TryRead(text, 0, text.Length, depth, out pattern, out error);

    private static bool TryRead(string text, int start, int end, int depth, [NotNullWhen(true)] out SubstructurePattern? pattern, [NotNullWhen(false)] out StructureError? error)
    {
        var reader = new SmartsReader(text, start, end, depth);
        pattern = reader.Read();
        error = reader._error;
        return pattern is not null;
    }

    private SubstructurePattern? Read()
    {
        if (_at == _end)
        {
            return Fail(_at, "the pattern is empty");
        }

        var start = _at;
        while (_at < _end)
        {
            if (!Step())
            {
                return null;
            }
        }

        if (_branches.TryPeek(out var branch))
        {
            return Fail(branch.Position, "this parenthesis is never closed");
        }

        foreach (var (number, ring) in _rings)
        {
            return Fail(ring.Position, $"ring {number} is opened here and never closed");
        }

        return _previous < 0
            ? Fail(_end, "an atom is missing at the end")
            : new SubstructurePattern(_text[start.._end], [.. _atoms], [.. _bonds]);
    }

    private bool Step()
    {
        var c = Current;
        switch (c)
        {
            case '(':
                if (_previous < 0)
                {
                    return Fault("a branch must follow an atom; grouping of parts is not read");
                }

                _branches.Push((_previous, _at++));
                return Current is not (')' or '(') || Fault("a branch begins with an atom or a bond");
            case ')':
                if (!_branches.TryPop(out var branch))
                {
                    return Fault("this parenthesis was never opened");
                }

                _previous = branch.Atom;
                _at++;
                return true;
            case '.':
                if (_previous < 0 || _branches.Count > 0)
                {
                    return Fault("the dot must stand between two parts");
                }

                _previous = -1;
                _at++;
                return true;
            case '>':
                return Fault("reactions are not read");
        }

        ushort? bond = null;
        if (c is '-' or '=' or '#' or '$' or ':' or '~' or '@' or '!')
        {
            if (_previous < 0)
            {
                return Fault("a bond must follow an atom");
            }

            bond = SmartsBond.Read(_text, ref _at, _end, out _error);
            if (_error is not null)
            {
                return false;
            }
        }
        else if (c is '/' or '\\')
        {
            return Fault("stereo marks are not read in patterns");
        }

        if (char.IsAsciiDigit(Current) || Current == '%')
        {
            return Ring(bond);
        }

        var test = Atom();
        if (test is null)
        {
            return false;
        }

        if (_atoms.Count == SubstructurePattern.MaximumAtoms)
        {
            return Fault($"patterns up to {SubstructurePattern.MaximumAtoms} atoms are read");
        }

        _atoms.Add(test);
        if (_previous >= 0)
        {
            _bonds.Add(new PatternBond(_previous, _atoms.Count - 1, bond ?? (BondTest.Single | BondTest.Aromatic)));
        }

        _previous = _atoms.Count - 1;
        return true;
    }

    private bool Ring(ushort? bond)
    {
        var start = _at;
        if (_previous < 0)
        {
            return Fault("a ring number must follow an atom");
        }

        int number;
        if (Current == '%')
        {
            if (_at + 2 >= _end || !char.IsAsciiDigit(_text[_at + 1]) || !char.IsAsciiDigit(_text[_at + 2]))
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

        if (!_rings.Remove(number, out var open))
        {
            _rings.Add(number, (_previous, bond, start));
            return true;
        }

        if (open.Atom == _previous)
        {
            return Fault(start, $"ring {number} closes on the atom it was opened on");
        }

        if (open.Bond is { } before && bond is { } now && before != now)
        {
            return Fault(start, $"ring {number} was opened with another bond at character {open.Position + 1}");
        }

        var (first, second) = (open.Atom, _previous);
        if (_bonds.Exists(b => (b.First == first && b.Second == second) || (b.First == second && b.Second == first)))
        {
            return Fault(start, $"ring {number} would bind two atoms that are bound already");
        }

        _bonds.Add(new PatternBond(open.Atom, _previous, open.Bond ?? bond ?? (BondTest.Single | BondTest.Aromatic)));
        return true;
    }

    private AtomTest? Atom()
    {
        if (Current == '[')
        {
            var bracket = new SmartsBracket(_text, _at, _end, _depth);
            var test = bracket.Read(out _at, out _error);
            return test;
        }

        var start = _at;
        var c = Current;
        switch (c)
        {
            case '*':
                _at++;
                return AtomTest.Any;
            case 'A':
                _at++;
                return new AtomTest(AtomTerm.Aliphatic);
            case 'a':
                _at++;
                return new AtomTest(AtomTerm.Aromatic);
        }

        var two = _at + 1 < _end && ((c == 'C' && _text[_at + 1] == 'l') || (c == 'B' && _text[_at + 1] == 'r')) ? 2 : 1;
        Span<char> symbol = stackalloc char[two];
        if (_at + two > _end)
        {
            Fail(_at, "an atom is missing");
            return null;
        }

        _text.AsSpan(_at, two).CopyTo(symbol);
        var aromatic = char.IsAsciiLetterLower(c);
        symbol[0] = char.ToUpperInvariant(symbol[0]);
        var element = Elements.Number(symbol);
        if (!Elements.IsOrganicSubset(element) || (aromatic && !Elements.IsAromaticSymbol(element)))
        {
            Fail(start, c == '\0' ? "an atom is missing" : $"'{c}' is no atom that may stand without brackets");
            return null;
        }

        _at += two;
        return new AtomTest(aromatic ? AtomTerm.AromaticElement : AtomTerm.AliphaticElement, element);
    }

    private bool Fault(string message) => Fault(_at, message);

    private bool Fault(int position, string message)
    {
        Fail(position, message);
        return false;
    }

    private SubstructurePattern? Fail(int position, string message)
    {
        _error ??= new StructureError(position, message);
        return null;
    }

    /// <summary>Reads a pattern inside $( ).</summary>
    internal static SubstructurePattern? Environment(string text, int start, int end, int depth, out StructureError? error)
    {
        if (depth >= MaximumDepth)
        {
            error = new StructureError(start, $"environments may be nested {MaximumDepth} deep");
            return null;
        }

        return TryRead(text, start, end, depth + 1, out var pattern, out error) ? pattern : null;
    }
}
