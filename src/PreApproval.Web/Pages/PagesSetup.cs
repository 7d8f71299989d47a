using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Pages;

/// <summary>The pages of the application.</summary>
public static class PagesSetup
{
    public static IServiceCollection AddPages(this IServiceCollection services)
    {
        services.AddRazorComponents().AddInteractiveServerComponents();
        services.AddCascadingAuthenticationState();
        services.AddScoped<PageActor>();
        return services;
    }

    public static WebApplication MapPages(this WebApplication app)
    {
        ArgumentNullException.ThrowIfNull(app);
        app.MapStaticAssets();
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode();
        return app;
    }
}
