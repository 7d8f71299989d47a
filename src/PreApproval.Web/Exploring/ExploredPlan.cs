using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Documents.Planning;
using PreApproval.Documents.Substances;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Exploring;

/// <summary>A document followed to the steps that can be explored, with the group's own values in it.</summary>
/// <param name="Root">As it is kept.</param>
/// <param name="Document">As it is screened; null: it has faults.</param>
/// <param name="Plan">As the engine reads it; null: it has faults.</param>
/// <param name="Faults">What keeps it from being screened.</param>
public sealed record ExploredPlan(JsonObject Root, ProcedureDocument? Document, Plan? Plan, IReadOnlyList<Fault> Faults)
{
    /// <summary>Steps that can be explored.</summary>
    public IReadOnlyList<StepState> Explorable => Plan is null ? [] : SafeWindow.StatesOf(Plan, Policy.Default);

    public static ExploredPlan Read(JsonObject root, DocumentScreener screener, IReadOnlyList<ListedGroupSubstance> own)
    {
        ArgumentNullException.ThrowIfNull(root);
        ArgumentNullException.ThrowIfNull(screener);
        Result<ProcedureDocument, DocumentRefusal> read = screener.Read(Encoding.UTF8.GetBytes(root.ToJsonString()));
        if (!read.IsOk)
        {
            return new ExploredPlan(root, null, null, read.Error.Faults);
        }

        return Of(root, GroupSubstanceUse.Complete(read.Value, own));
    }

    /// <summary>A document that was read already.</summary>
    public static ExploredPlan Of(JsonObject root, ProcedureDocument completed) => new(root, completed, PlanMapping.ToPlan(completed, Catalog.Default), []);

    /// <summary>A step as this document has it, also where nothing closes or heats it any more.</summary>
    public StepState? StateOf(ExploredStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        return Plan is null ? null : SafeWindow.StatesOf(Plan, Policy.Default, step.StepId).FirstOrDefault(s => s.Index == step.Index && string.Equals(s.Vessel.Id, step.VesselId, StringComparison.Ordinal));
    }
}
