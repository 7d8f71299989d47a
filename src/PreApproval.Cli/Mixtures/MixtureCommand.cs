using PreApproval.Cli.Output;
using PreApproval.Documents;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Mixtures;

namespace PreApproval.Cli.Mixtures;

/// <summary><c>mixture</c>: what a liquid mixture gives off at a temperature, and when that burns.</summary>
internal static class MixtureCommand
{
    public static Answer Answer(ReadOnlyMemory<byte> utf8)
    {
        (MixtureQuestion? question, IReadOnlyList<Fault> faults) = MixtureReader.Read(utf8);
        if (question is null)
        {
            return new Problem("Unusable mixture", "The input of mixture has faults.", faults);
        }

        MixtureAnswer answer = Of(question);
        return Output.Answer.Of(MixtureJson.Of(answer), MixtureText.Of(answer), isFlagged: false);
    }

    private static MixtureAnswer Of(MixtureQuestion question)
    {
        double temperatureK = question.TemperatureC + UnitTable.CelsiusZeroK;
        LiquidMixture mixture = question.Mixture;
        IReadOnlyList<double?> gamma = mixture.ActivityCoefficientsAt(temperatureK);
        EquilibriumPoint bubble = BubblePoint.PressureAt(mixture, temperatureK);
        FlashPointEstimate flash = MixtureFlashPoint.Of(mixture);
        VapourFlammability limits = VapourLimits.At(mixture.Parts, bubble.VapourMoleFractions, temperatureK);
        List<string> warnings = [.. question.Warnings, .. mixture.Notes, .. bubble.Warnings, .. flash.Warnings, .. limits.Warnings];
        string[] without = [.. gamma.Index().Where(value => value.Item is null).Select(value => mixture.Parts[value.Index].Substance.Identity.Name)];
        Missing(warnings, without.Length > 0, $"Activity coefficient of {string.Join(", ", without)}", "no UNIFAC groups or no interaction parameters are on file");
        Missing(warnings, bubble.Because is not null, "Bubble pressure", bubble.Because);
        Missing(warnings, bubble.Because is null && bubble.VapourMoleFractions is null, "Composition of the vapour", "the pressure is a bound, which says nothing of the composition");
        Missing(warnings, flash.Because is not null, "Flash point", flash.Because);
        Missing(warnings, limits.Lower.Because is not null, "Flammable limits", limits.Lower.Because);
        return new MixtureAnswer(question, gamma, bubble, flash, limits, [.. warnings.Distinct(StringComparer.Ordinal)]);
    }

    private static void Missing(List<string> warnings, bool missing, string what, string? because)
    {
        if (missing)
        {
            warnings.Add($"{what}: none, because {because}.");
        }
    }
}

/// <summary>Everything the command says of one mixture.</summary>
internal sealed record MixtureAnswer(
    MixtureQuestion Question,
    IReadOnlyList<double?> ActivityCoefficients,
    EquilibriumPoint Bubble,
    FlashPointEstimate Flash,
    VapourFlammability Limits,
    IReadOnlyList<string> Warnings);
