using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Vessels;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Shared.Charts;

namespace PreApproval.Web.Exploring;

/// <summary>
/// A step as planned and as tried: numbers, curves and drawings. Only what a change touches is computed again: the curve over temperature
/// stays while the set temperature moves along it.
/// </summary>
public sealed class Exploration
{
    /// <summary>Every 5 %.</summary>
    private const int FillPoints = 20;

    private readonly DocumentScreener _screener;
    private readonly GroupGround _ground;
    private readonly StepState _plannedState;
    private (ExploredValues Values, bool Dry, bool Heated) _curveOf = (ExploredValues.AsPlanned, false, false);
    private SafeWindowCurve? _overTemperature;

    private Exploration(ExploredPlan plan, ExploredStep step, StepState state, DocumentScreener screener, GroupGround ground)
    {
        (Plan, Step, _plannedState, _screener, _ground) = (plan, step, state, screener, ground);
        Liquids = ListedSolvents.In(plan.Plan!, state);
        Planned = StepNumbers.Of(state, plan.Policy);
        Tried = Planned;
        Draft = ExploredDraft.Of(plan, state, ExploredValues.AsPlanned, toKeep: false, ground.Inventory);
        Document = plan.Document!;
        Listed = ListedVessels.Find(plan, state, ground.Inventory);
    }

    /// <summary>The document as planned.</summary>
    public ExploredPlan Plan { get; }

    public ExploredStep Step { get; }

    public ExploredValues Values { get; private set; } = ExploredValues.AsPlanned;

    public StepNumbers Planned { get; }

    /// <summary>As tried, as far as it can be computed.</summary>
    public StepNumbers Tried { get; private set; }

    /// <summary>The vessel of the inventory that the step is planned with; null: none.</summary>
    public ListedVessel? Listed { get; }

    /// <summary>Liquids that can be exchanged.</summary>
    public IReadOnlyList<ExchangeableLiquid> Liquids { get; }

    /// <summary>What is tried, written into the document.</summary>
    public ExploredDraft Draft { get; private set; }

    /// <summary>That document as it is screened.</summary>
    public ProcedureDocument Document { get; private set; }

    /// <summary>What keeps the tried document from being screened; empty: nothing.</summary>
    public IReadOnlyList<Fault> Faults { get; private set; } = [];

    /// <summary>Null: the step cannot be drawn any more with what is tried.</summary>
    public SafeWindowCurve? OverTemperature => _overTemperature;

    public ChartModel? PressureChart { get; private set; }

    public ChartModel? FillChart { get; private set; }

    public ChartModel? MarginChart { get; private set; }

    /// <summary>Ends of the temperature axis in °C.</summary>
    public (double From, double To) AxisC
    {
        get
        {
            double planned = Planned.State.TemperatureK - UnitTable.CelsiusZeroK;
            double tried = Values.TemperatureC ?? planned;
            double from = 10 * Math.Floor(Math.Min(Math.Min(planned, tried), 20) / 10);
            double to = 10 * Math.Ceiling(Math.Max(Math.Max(planned + 60, tried), 120) / 10);
            return (Math.Max(from, ExplorerRange.LeastC), Math.Min(to, ExplorerRange.MostC));
        }
    }

    /// <summary>Null: the document has faults or no such step.</summary>
    public static Exploration? Begin(ExploredPlan plan, string? step, DocumentScreener screener, GroupGround ground)
    {
        ArgumentNullException.ThrowIfNull(plan);
        if (ExploredStep.Find(plan.Explorable, step) is not { } found || plan.StateOf(found) is not { } state)
        {
            return null;
        }

        var exploration = new Exploration(plan, found, state, screener, ground);
        exploration.Draw(state);
        return exploration;
    }

    /// <summary>What is to be written into the draft: as tried, without a rating that is only typical.</summary>
    public ExploredDraft ToKeep() => Values.RatingIsTypical ? Written(toKeep: true, out _) : Draft;

    /// <summary>Tries other values and draws what they change.</summary>
    public void Try(ExploredValues values)
    {
        Values = values;
        Draft = Written(toKeep: false, out ExploredPlan plan);
        Faults = plan.Faults;
        if (plan.Document is { } document && plan.StateOf(Step) is { } state)
        {
            Document = document;
            Draw(state);
        }
    }

    private ExploredDraft Written(bool toKeep, out ExploredPlan plan)
    {
        var draft = ExploredDraft.Of(Plan, _plannedState, Values, toKeep, _ground.Inventory);
        plan = ExploredPlan.Read(draft.Root, _screener, _ground);
        if (Values.Fill is { } wanted && (plan.StateOf(Step) is { } state ? FillLimits.FillOf(state) : null) is { } fill and > 0)
        {
            draft.ScaleAmounts(wanted / fill);
            plan = ExploredPlan.Read(draft.Root, _screener, _ground);
        }
        else if (Values.Amounts is { } factor)
        {
            draft.ScaleAmounts(factor);
            plan = ExploredPlan.Read(draft.Root, _screener, _ground);
        }

        return draft;
    }

    private void Draw(StepState state)
    {
        Tried = StepNumbers.Of(state, Plan.Policy);
        (double from, double to) = AxisC;
        (ExploredValues Values, bool Dry, bool Heated) key = (Values with { TemperatureC = null }, state.HeatedOrGassingSinceClosing, state.Heated);
        if (_overTemperature is null || key != _curveOf || Math.Abs(_overTemperature.Points[0].At - UnitTable.CelsiusZeroK - from) > 1e-6 || Math.Abs(_overTemperature.Points[^1].At - UnitTable.CelsiusZeroK - to) > 1e-6)
        {
            int points = (int)Math.Round((to - from) / ExplorerRange.StepK) + 1;
            _overTemperature = SafeWindow.OverTemperature(state, Plan.Policy, from + UnitTable.CelsiusZeroK, to + UnitTable.CelsiusZeroK, points);
            _curveOf = key;
        }

        PressureChart = state.Sealed && _overTemperature.Points.Any(static p => p.GoverningPaGauge is not null || p.LiquidFull) ? ExplorerCharts.Pressure(_overTemperature, Planned, Tried) : null;
        MarginChart = ExplorerCharts.Margins(_overTemperature, Planned, Tried, Plan.Policy);
        FillChart = state.Sealed && Tried.Fill is > 0
            && SafeWindow.OverFill(state, Plan.Policy, 0.05, 1, FillPoints) is { Points.Count: > 0 } overFill
            && overFill.Points.Any(static p => p.GoverningPaGauge is not null) ? ExplorerCharts.Fill(overFill, Planned, Tried, Plan.Policy) : null;
    }
}
