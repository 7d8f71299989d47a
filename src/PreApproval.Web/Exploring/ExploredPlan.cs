using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Documents.Planning;
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
/// <param name="Policy">The thresholds it is judged by.</param>
public sealed record ExploredPlan(JsonObject Root, ProcedureDocument? Document, Plan? Plan, IReadOnlyList<Fault> Faults, Policy Policy)
{
    /// <summary>Steps that can be explored.</summary>
    public IReadOnlyList<StepState> Explorable => Plan is null ? [] : SafeWindow.StatesOf(Plan, Policy);

    public static ExploredPlan Read(JsonObject root, DocumentScreener screener, GroupGround ground)
    {
        ArgumentNullException.ThrowIfNull(root);
        ArgumentNullException.ThrowIfNull(screener);
        ArgumentNullException.ThrowIfNull(ground);
        Result<ProcedureDocument, DocumentRefusal> read = screener.Read(Encoding.UTF8.GetBytes(root.ToJsonString()));
        if (!read.IsOk)
        {
            return new ExploredPlan(root, null, null, read.Error.Faults, ground.Policy);
        }

        InventoryCompletion stocked = ground.Complete(read.Value);
        return stocked.Faults.Count > 0 ? new ExploredPlan(root, null, null, stocked.Faults, ground.Policy) : Of(root, stocked.Document, ground.Policy);
    }

    /// <summary>A document that was read already.</summary>
    public static ExploredPlan Of(JsonObject root, ProcedureDocument completed, Policy policy) => new(root, completed, PlanMapping.ToPlan(completed, Catalog.Default), [], policy);

    /// <summary>A step as this document has it, also where nothing closes or heats it any more.</summary>
    public StepState? StateOf(ExploredStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        return Plan is null ? null : SafeWindow.StatesOf(Plan, Policy, step.StepId).FirstOrDefault(s => s.Index == step.Index && s.VesselIndex == step.VesselIndex);
    }
}
