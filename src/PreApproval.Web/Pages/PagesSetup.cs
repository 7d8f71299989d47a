namespace PreApproval.Web.Pages;

/// <summary>The pages of the application.</summary>
public static class PagesSetup
{
    public static IServiceCollection AddPages(this IServiceCollection services) => services;

    public static WebApplication MapPages(this WebApplication app) => app;
}
