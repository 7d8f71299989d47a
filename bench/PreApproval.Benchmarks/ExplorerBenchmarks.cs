using System.Text.Json.Nodes;
using BenchmarkDotNet.Attributes;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using PreApproval.Hazards.Substances;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Exploring;
using PreApproval.Web.Shared.Charts;

namespace PreApproval.Benchmarks;

/// <summary>
/// One redraw of the explorer: the change written into the document, the walk, the numbers, the curves and the markup of the three charts with
/// their tables. Four liquids in a closed tube. Every call tries another value than the one before it.
/// </summary>
[MemoryDiagnoser]
public class ExplorerBenchmarks
{
    private readonly ServiceProvider _services = new ServiceCollection().BuildServiceProvider();
    private Exploration _at = null!;
    private Substance _toluene = null!;
    private int _calls;

    [GlobalSetup]
    public void Begin()
    {
        using Stream stream = typeof(ExplorerBenchmarks).Assembly.GetManifestResourceStream("Plans/closed-tube.json")!;
        ExploredPlan plan = ExploredPlan.Read(JsonNode.Parse(stream)!.AsObject(), DocumentScreener.Engine, GroupGround.Bare);
        _at = Exploration.Begin(plan, "3", DocumentScreener.Engine, GroupGround.Bare) ?? throw new InvalidOperationException("The plan cannot be explored.");
        if (_at is not { PressureChart: not null, FillChart: not null, MarginChart: not null })
        {
            throw new InvalidOperationException("A chart is missing.");
        }

        _toluene = Charges.Find("108-88-3");
    }

    /// <summary>The slider of the set temperature: the curve over temperature stays, the one over fill is new.</summary>
    [Benchmark]
    public Task<int> Temperature() => DrawAsync(new ExploredValues { TemperatureC = 60 + (_calls++ % 40) });

    /// <summary>Another volume: everything is new.</summary>
    [Benchmark]
    public Task<int> Volume() => DrawAsync(new ExploredValues { VolumeML = 40 + (_calls++ % 40) });

    /// <summary>Another fill: all amounts are scaled, everything is new.</summary>
    [Benchmark]
    public Task<int> Fill() => DrawAsync(new ExploredValues { Fill = 0.2 + (0.01 * (_calls++ % 40)) });

    /// <summary>Another solvent at another temperature.</summary>
    [Benchmark]
    public Task<int> Solvent() => DrawAsync(new ExploredValues { TemperatureC = 60 + (_calls++ % 40), Solvent = new SolventSwap(_calls % 3, _toluene) });

    private async Task<int> DrawAsync(ExploredValues values)
    {
        _at.Try(values);
        await using var renderer = new HtmlRenderer(_services, NullLoggerFactory.Instance);
        return await renderer.Dispatcher.InvokeAsync(async () =>
        {
            int length = 0;
            foreach (ChartModel? chart in new[] { _at.PressureChart, _at.FillChart, _at.MarginChart })
            {
                var drawn = await renderer.RenderComponentAsync<LineChart>(ParameterView.FromDictionary(new Dictionary<string, object?>(StringComparer.Ordinal) { [nameof(LineChart.Chart)] = chart }));
                length += drawn.ToHtmlString().Length;
            }

            return length;
        });
    }
}
