namespace PreApproval.Hazards.Energy;

/// <summary>Which constants of the correlation.</summary>
public enum SensitivityConstants
{
    /// <summary>As published: T. Yoshida and others, 1987 (0.72 and 0.38).</summary>
    Published,

    /// <summary>The later, more cautious industrial ones (0.54 and 0.285): Green and others, Org. Process Res. Dev. 2020, 24, 67; from memory.</summary>
    Cautious,
}

/// <summary>
/// Yoshida's correlation of sensitivity to shock and of the ability to propagate with heat and onset of a calorimeter run: S = log10 Q − a log10(T − 25) − 0.98 and
/// P = log10 Q − b log10(T − 25) − 1.67, with Q in cal/g and the onset T in °C. At 0 or above a substance is suspect; below 0 proves nothing.
/// </summary>
public static class SensitivityEstimate
{
    private const double JoulePerCalorie = 4.184;

    /// <summary>Onset in °C above the reference of the correlation below which it has no meaning.</summary>
    private const double LeastAboveReferenceC = 1;

    /// <summary>Shock and propagation; null for no heat or an onset at room temperature, where the correlation has no meaning.</summary>
    /// <param name="joulePerGram">Heat of decomposition in J/g, above 0.</param>
    /// <param name="onsetC">Onset in °C, above 26.</param>
    /// <param name="constants">Which constants.</param>
    public static (double Shock, double Propagation)? Of(double joulePerGram, double onsetC, SensitivityConstants constants)
    {
        if (!(joulePerGram > 0) || !(onsetC - 25 >= LeastAboveReferenceC))
        {
            return null;
        }

        var heat = Math.Log10(joulePerGram / JoulePerCalorie);
        var onset = Math.Log10(onsetC - 25);
        var (shock, propagation) = constants switch
        {
            SensitivityConstants.Published => (0.72, 0.38),
            SensitivityConstants.Cautious => (0.54, 0.285),
        };
        return (heat - (shock * onset) - 0.98, heat - (propagation * onset) - 1.67);
    }
}
