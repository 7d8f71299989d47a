using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Web.Shared.Charts;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Tests;

public class PressureCurveTests
{
    [Fact]
    public void From_AVesselWithAnUnknownSubstance_SaysWhyItIsNotDrawn()
    {
        PressureCurve curve = Assert.Single(CurvesOf("""{"name":"an own substance of ours"}""", ""));
        Assert.Empty(curve.Curve);
        Assert.NotNull(curve.Because);
    }

    [Fact]
    public void From_AcetonitrileInAClosedTube_PassesThroughTheScreeningsPressure()
    {
        PressureCurve curve = Assert.Single(CurvesOf("""{"cas":"75-05-8"}""", ""));
        Assert.Null(curve.Because);
        AssertPassesThroughSet(curve);
        Assert.Equal(0, curve.GasFormedMol);
    }

    [Fact]
    public void From_AReactionThatFormsGas_CountsTheGas()
    {
        // 5 mmol of nitrogen, as declared: the curve has to find what the report does not state.
        PressureCurve curve = Assert.Single(CurvesOf("""{"cas":"75-05-8"}""",
            """,{"id":"a","substance":{"cas":"603-35-0"},"amount":{"value":5,"unit":"mmol"}}"""));
        Assert.Null(curve.Because);
        AssertPassesThroughSet(curve);
        Assert.Equal(5e-3, curve.GasFormedMol, 0.5e-3);
    }

    private static void AssertPassesThroughSet(PressureCurve curve)
    {
        CurvePoint nearest = curve.Curve.MinBy(p => Math.Abs(p.TemperatureC - curve.SetTemperatureC))!;
        Assert.Equal(curve.SetPressureBarGauge!.Value, nearest.GoverningBarGauge, 0.15 * curve.SetPressureBarGauge.Value);
    }

    private static IReadOnlyList<PressureCurve> CurvesOf(string substance, string second)
    {
        string reaction = second.Length == 0 ? "" : ""","reactions":[{"step":"3","consumes":[{"material":"a","equivalents":1}],"produces":[{"substance":{"cas":"7727-37-9"},"equivalents":1,"state":"gas"}]}]""";
        string use = second.Length == 0 ? "" : ""","a" """;
        var document = (JsonObject)JsonNode.Parse($$$"""
            {"schema":"preapproval/procedure/1","title":"t",
             "materials":[{"id":"s","substance":{{{substance}}},"amount":{"value":10,"unit":"g"}}{{{second}}}],
             "vessels":[{"id":"tube","kind":"thick-walled glass tube","volume":{"value":35,"unit":"mL"},"rating":{"value":10,"unit":"bar(g)"}}],
             "steps":[{"id":"1","action":"charge","vessel":"tube","materials":["s"{{{use}}}],"temperature":{"value":20,"unit":"°C"} },
                      {"id":"2","action":"seal","vessel":"tube","headspace":"nitrogen"},
                      {"id":"3","action":"heat","vessel":"tube","temperature":{"value":110,"unit":"°C"},"duration":{"value":2,"unit":"h"},"heatSource":"metal block"}]{{{reaction}}} }
            """)!;
        Result<ProcedureDocument, DocumentRefusal> read = DocumentReader.Read(System.Text.Encoding.UTF8.GetBytes(document.ToJsonString()));
        Assert.True(read.IsOk, read.IsOk ? "" : string.Join("; ", read.Error.Faults.Select(f => f.Path + " " + f.Message)));
        ScreeningView screening = ScreeningView.Read(DocumentScreening.Screen(read.Value, Hazards.Screening.Policy.Default).Json);
        return PressureCurve.From(document, screening);
    }
}
