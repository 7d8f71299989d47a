using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Decisions;
using PreApproval.Procedures.Drafting;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Notices;
using PreApproval.Procedures.Submission;
using PreApproval.Procedures.Substances;
using PreApproval.Procedures.Thresholds;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures;

/// <summary>Registers the handlers.</summary>
public static class ProceduresSetup
{
    /// <summary>All handlers, one instance per scope. The stores and <c>UserManager</c> of <see cref="Account"/> must be registered too.</summary>
    public static IServiceCollection AddProcedures(this IServiceCollection services)
    {
        services.TryAddSingleton(TimeProvider.System);
        services.TryAddSingleton(DocumentScreener.Engine);
        return services
            .AddScoped<AuditTrail>()
            .AddScoped<RevisionViews>()
            .AddScoped<DraftHandler>()
            .AddScoped<SubmissionHandler>()
            .AddScoped<DecisionHandler>()
            .AddScoped<ProcedureQueries>()
            .AddScoped<GroupSubstanceHandler>()
            .AddScoped<OwnValues>()
            .AddScoped<PolicyHandler>()
            .AddScoped<PolicyInUse>()
            .AddScoped<InventoryHandler>()
            .AddScoped<InventoryTable>()
            .AddScoped<InventoryLookup>()
            .AddScoped<HistoryHandler>()
            .AddScoped<MembershipQueries>()
            .AddScoped<NoticeQueries>()
            .AddScoped<ApiTokens>()
            .AddScoped<Sessions>()
            .AddScoped<SignInAttempts>()
            .AddScoped<GroupSetup>();
    }
}
