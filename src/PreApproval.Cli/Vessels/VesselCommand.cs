using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Cli.Output;
using PreApproval.Documents;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Cli.Vessels;

/// <summary><c>vessel</c>: a closed vessel over temperatures, by every model.</summary>
internal static class VesselCommand
{
    private const double PaPerBar = 1e5;

    public static Answer Answer(ReadOnlyMemory<byte> utf8)
    {
        (VesselQuestion? question, IReadOnlyList<Fault> faults) = VesselReader.Read(utf8);
        if (question is null)
        {
            return new Problem("Unusable closed vessel", "The input of vessel has faults.", faults);
        }

        VesselState[] states = [.. question.TemperaturesC.Select(celsius => ClosedVessel.At(question.Input, celsius + UnitTable.CelsiusZeroK))];
        double? maximumC = question.RatingBarGauge is { } rating
            ? ClosedVessel.HighestTemperatureK(question.Input, rating * PaPerBar) - UnitTable.CelsiusZeroK
            : null;
        string[] unknown = question.RatingBarGauge is null ? [] :
        [
            .. states.Where(state => !state.LiquidFull && state.Governing.PressurePaAbs is null)
                .Select(state => string.Create(CultureInfo.InvariantCulture, $"At {Rounded.Temperature(state.TemperatureK - UnitTable.CelsiusZeroK)} °C no pressure is known, so it is not compared with the rating: {state.Because}.")),
        ];
        string[] warnings = [.. question.Readings.Concat(unknown).Concat(states.SelectMany(state => state.Warnings)).Distinct(StringComparer.Ordinal)];
        var json = new JsonObject
        {
            ["states"] = new JsonArray([.. states.Select((state, index) => VesselJson.State(state, question.TemperaturesC[index], question.Identifiers))]),
            ["maximumTemperatureC"] = JsonText.Number(maximumC),
            ["warnings"] = new JsonArray([.. warnings.Select(warning => JsonValue.Create(warning))]),
        };
        return Output.Answer.Of(json, Text(question, states, maximumC, warnings), states.Any(state => IsFlagged(state, question.RatingBarGauge)));
    }

    private static bool IsFlagged(VesselState state, double? ratingBarGauge) =>
        state.LiquidFull || IsUnknown(state, ratingBarGauge) || (ratingBarGauge is { } rating && state.Governing.PressurePaAbs > UnitTable.AtmospherePa + (rating * PaPerBar));

    /// <summary>A pressure that is not known never passes against a rating.</summary>
    private static bool IsUnknown(VesselState state, double? ratingBarGauge) => ratingBarGauge is not null && state.Governing.PressurePaAbs is null;

    private static string Text(VesselQuestion question, VesselState[] states, double? maximumC, string[] warnings)
    {
        var text = new StringBuilder();
        var table = new TextTable("°C", "bar abs", "bar(g)", "phase", "liquid share", "model", "");
        foreach ((int index, VesselState state) in states.Index())
        {
            double? pascal = state.Governing.PressurePaAbs;
            table.Add(
                Rounded.Temperature(question.TemperaturesC[index]),
                Rounded.Pressure(pascal / PaPerBar),
                Rounded.Pressure((pascal - UnitTable.AtmospherePa) / PaPerBar),
                state.Governing.Phase is { } phase ? VesselJson.Word(phase) : "–",
                Rounded.Significant(state.Governing.LiquidVolumeFraction, 3),
                VesselJson.Word(state.Governing.Model),
                IsFlagged(state, question.RatingBarGauge) ? state.LiquidFull ? "FULL OF LIQUID" : IsUnknown(state, question.RatingBarGauge) ? "NOT KNOWN" : "ABOVE THE RATING" : "");
        }

        text.Append(table);
        if (question.RatingBarGauge is { } rating)
        {
            text.AppendLine();
            text.AppendLine(maximumC is { } most
                ? string.Create(CultureInfo.InvariantCulture, $"Highest temperature within {rating} bar(g): {most:0.0} °C")
                : string.Create(CultureInfo.InvariantCulture, $"No temperature from filling upwards stays within {rating} bar(g), or the pressure is not known."));
        }

        foreach (string because in states.Select(state => state.Because).Distinct(StringComparer.Ordinal))
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"Governing model: {because}");
        }

        foreach (string warning in warnings)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"Warning: {warning}");
        }

        return text.ToString();
    }
}
