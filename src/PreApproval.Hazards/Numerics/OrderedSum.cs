namespace PreApproval.Hazards.Numerics;

/// <summary>A sum in one order, so that the order of a list does not show in the last digit.</summary>
internal static class OrderedSum
{
    /// <summary>Adds the values from the least; they are left sorted.</summary>
    public static double Of(Span<double> values)
    {
        values.Sort();
        double sum = 0;
        foreach (var value in values)
        {
            sum += value;
        }

        return sum;
    }
}
