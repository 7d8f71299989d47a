using System.Globalization;
using System.Text;
using PreApproval.Cli.Output;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Substances;

namespace PreApproval.Cli.Mixtures;

/// <summary>The answer of <c>mixture</c> as a table for reading.</summary>
internal static class MixtureText
{
    public static string Of(MixtureAnswer answer)
    {
        var text = new StringBuilder();
        var table = new TextTable("component", "x", "γ", "y");
        foreach ((int index, string identifier) in answer.Question.Identifiers.Index())
        {
            Substance substance = answer.Question.Mixture.Parts[index].Substance;
            table.Add(
                string.Equals(identifier, substance.Identity.Name, StringComparison.OrdinalIgnoreCase) ? identifier : $"{substance.Identity.Name} ({identifier})",
                Rounded.Significant(answer.Question.Mixture.Parts[index].MoleFraction, 3),
                Rounded.Significant(answer.ActivityCoefficients[index], 3),
                Rounded.Significant(answer.Bubble.VapourMoleFractions?[index], 3));
        }

        text.Append(table);
        text.AppendLine();
        string at = Rounded.Temperature(answer.Question.TemperatureC);
        text.AppendLine(CultureInfo.InvariantCulture, $"Bubble pressure at {at} °C: {Rounded.Pressure(answer.Bubble.PressurePaAbs / 1e5)} bar abs{(answer.Bubble.Model is { } model ? $" ({MixtureJson.Word(model)})" : "")}");
        text.AppendLine(CultureInfo.InvariantCulture, $"Flash point: {Rounded.Temperature(answer.Flash.FlashPointK - UnitTable.CelsiusZeroK)} °C{(answer.Flash.FlashPointK is null ? "" : $" ({MixtureJson.FlashWord(answer.Flash)})")}");
        if (answer.Flash.LowerExplosionPointK is { } explosion)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"Vapour flammable from: {Rounded.Temperature(explosion - UnitTable.CelsiusZeroK)} °C (no flash point is a valid margin)");
        }

        text.AppendLine(CultureInfo.InvariantCulture, $"Flammable limits at {at} °C: {Percent(answer.Limits.Lower.Fraction)} to {Percent(answer.Limits.Upper.Fraction)} of the combustible part of the vapour in air");
        foreach (string warning in answer.Warnings)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"Warning: {warning}");
        }

        return text.ToString();
    }

    private static string Percent(double? fraction) => fraction is { } value ? $"{Rounded.Significant(value * 100, 2)} %" : "–";
}
