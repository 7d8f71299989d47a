using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Decisions;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Idempotency;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Notices;
using PreApproval.Procedures.Substances;
using PreApproval.Procedures.Thresholds;
using PreApproval.Procedures.Workflow;
using PreApproval.Storage.Stores;

namespace PreApproval.Storage;

/// <summary>Registers the database behind the handlers.</summary>
public static class StorageSetup
{
    /// <summary>The context (one per scope) and every store. The account in <paramref name="connectionString"/> needs no DDL, only <see cref="Migrator.ApplicationRole"/>.</summary>
    public static IServiceCollection AddStorage(this IServiceCollection services, string connectionString, Action<DbContextOptionsBuilder>? configure = null)
    {
        services.TryAddSingleton(TimeProvider.System);
        services.AddDbContext<PreApprovalDbContext>(builder =>
        {
            StorageOptions.Apply(builder, connectionString);
            configure?.Invoke(builder);
        });
        return services
            .AddScoped<IUnitOfWork, UnitOfWork>()
            .AddScoped<IProcedureStore, ProcedureStore>()
            .AddScoped<IProcedureReader, ProcedureReader>()
            .AddScoped<IGroupStore, GroupStore>()
            .AddScoped<IGroupSubstanceStore, GroupSubstanceStore>()
            .AddScoped<IPolicyStore, PolicyStore>()
            .AddScoped<IInventoryStore, InventoryStore>()
            .AddScoped<IAuditStore, AuditStore>()
            .AddScoped<INoticeStore, NoticeStore>()
            .AddScoped<IIdempotencyStore, IdempotencyStore>()
            .AddScoped<IApiTokenStore, ApiTokenStore>()
            .AddScoped<ISignRefusalStore, SignRefusalStore>()
            .AddScoped<ISessionStore, SessionStore>()
            .AddScoped<ISignInAttemptStore, SignInAttemptStore>();
    }

    /// <summary>The accounts' stores: <c>services.AddIdentityCore&lt;Account&gt;(…).AddStorageStores()</c>.</summary>
    public static IdentityBuilder AddStorageStores(this IdentityBuilder builder) => builder.AddEntityFrameworkStores<PreApprovalDbContext>();

    /// <summary>Keeps the keys that protect cookies and forms in the database.</summary>
    public static IDataProtectionBuilder PersistKeysToStorage(this IDataProtectionBuilder builder) => builder.PersistKeysToDbContext<PreApprovalDbContext>();
}
