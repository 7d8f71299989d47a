namespace PreApproval.Hazards.Plans;

/// <summary>Reads the closure of a vessel as typed.</summary>
internal static class ClosureWords
{
    /// <summary>The vent that the words name, or null: it closes.</summary>
    public static Closure? Vent(string? closure)
    {
        if (closure is null)
        {
            return null;
        }

        if (closure.Contains("balloon", StringComparison.OrdinalIgnoreCase))
        {
            return Closure.Balloon;
        }

        if (closure.Contains("bubbler", StringComparison.OrdinalIgnoreCase) || closure.Contains("drying tube", StringComparison.OrdinalIgnoreCase))
        {
            return Closure.Bubbler;
        }

        return closure.Contains("needle", StringComparison.OrdinalIgnoreCase) ? Closure.Needle : null;
    }
}
