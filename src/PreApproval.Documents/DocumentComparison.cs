using PreApproval.Documents.Planning;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents;

/// <summary>Two documents to the changes between their hazards.</summary>
public static class DocumentComparison
{
    /// <summary>Screens both under one policy with today's engine and data, so that every change comes from the procedures.</summary>
    public static IReadOnlyList<HazardChange> Compare(ProcedureDocument before, ProcedureDocument after, Policy policy) =>
        Comparison.Of(Screen(before, policy), Screen(after, policy));

    /// <summary>The same for documents that were screened, under one policy, already.</summary>
    public static IReadOnlyList<HazardChange> Between(ProcedureDocument before, Report was, ProcedureDocument after, Report now, Policy policy) =>
        Comparison.Of(new ScreenedPlan(PlanMapping.ToPlan(before, Catalog.Default), was, policy), new ScreenedPlan(PlanMapping.ToPlan(after, Catalog.Default), now, policy));

    private static ScreenedPlan Screen(ProcedureDocument document, Policy policy)
    {
        var plan = PlanMapping.ToPlan(document, Catalog.Default);
        return new ScreenedPlan(plan, Screener.Screen(plan, policy), policy);
    }
}
