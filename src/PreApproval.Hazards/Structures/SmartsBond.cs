namespace PreApproval.Hazards.Structures;

/// <summary>Reads what a pattern asks of a bond: ; binds least, then the comma, then &amp; (or nothing), then !.</summary>
internal ref struct SmartsBond
{
    private readonly string _text;
    private readonly int _end;
    private StructureError? _error;
    private int _at;

    private SmartsBond(string text, int start, int end) => (_text, _at, _end) = (text, start, end);

    private readonly char Current => _at < _end ? _text[_at] : '\0';

    /// <summary>The bond that begins at a character, as bits of <see cref="BondTest"/>; the place moves behind it.</summary>
    public static ushort Read(string text, ref int at, int end, out StructureError? error)
    {
        var bond = new SmartsBond(text, at, end);
        var value = bond.Low();
        at = bond._at;
        error = bond._error;
        return value;
    }

    private ushort Low()
    {
        var value = Or();
        while (Take(';'))
        {
            value &= Or();
        }

        return value;
    }

    private ushort Or()
    {
        var value = High();
        while (Take(','))
        {
            value |= High();
        }

        return value;
    }

    private ushort High()
    {
        var value = Term();
        while (_error is null && Current is '&' or '-' or '=' or '#' or '$' or ':' or '~' or '@' or '!')
        {
            Take('&');
            value &= Term();
        }

        return value;
    }

    private ushort Term()
    {
        var negated = false;
        while (Take('!'))
        {
            negated = !negated;
        }

        ushort value = Current switch
        {
            '-' => BondTest.Single,
            '=' => BondTest.Double,
            '#' => BondTest.Triple,
            '$' => BondTest.Quadruple,
            ':' => BondTest.Aromatic,
            '~' => BondTest.Any,
            '@' => BondTest.InRing,
            _ => 0,
        };
        if (value == 0)
        {
            _error ??= new StructureError(_at, "a bond is one of - = # $ : ~ @");
            return 0;
        }

        _at++;
        return negated ? (ushort)(~value & BondTest.Any) : value;
    }

    private bool Take(char c)
    {
        if (Current != c)
        {
            return false;
        }

        _at++;
        return true;
    }
}
