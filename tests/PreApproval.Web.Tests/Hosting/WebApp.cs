using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Hosting;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Tests.Hosting;

/// <summary>The real application on a real socket of 127.0.0.1, with a real database. Only the screening is replaced, by <see cref="SampleScreening"/>, where a test asks for it.</summary>
public sealed class WebApp : WebApplicationFactory<Program>
{
    private readonly string _connectionString;
    private readonly bool _realEngine;
    private readonly int _signInsPerMinute;

    private readonly int _decisionsPerMinute;
    private readonly Action<IServiceCollection>? _services;

    private WebApp(string connectionString, bool realEngine, int signInsPerMinute, int decisionsPerMinute, Action<IServiceCollection>? services)
    {
        (_connectionString, _realEngine, _signInsPerMinute, _decisionsPerMinute, _services) = (connectionString, realEngine, signInsPerMinute, decisionsPerMinute, services);
        UseKestrel(0);
    }

    public Uri Address { get; private set; } = null!;

    public static WebApp Start(string connectionString, bool realEngine = false, int signInsPerMinute = 100_000, int decisionsPerMinute = 100_000, Action<IServiceCollection>? services = null)
    {
        var app = new WebApp(connectionString, realEngine, signInsPerMinute, decisionsPerMinute, services);
        app.StartServer();
        app.Address = app.ClientOptions.BaseAddress;
        return app;
    }

    /// <summary>A client that follows no redirect and keeps no cookies.</summary>
    public HttpClient Client() => new(new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false }) { BaseAddress = Address };

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        builder.UseSetting("ConnectionStrings:PreApproval", _connectionString);
        builder.UseSetting("Serilog:MinimumLevel:Default", "Fatal");
        builder.UseSetting(RateLimits.SignInsPerMinute, _signInsPerMinute.ToString(System.Globalization.CultureInfo.InvariantCulture));
        builder.UseSetting("RateLimits:DecisionsPerMinute", _decisionsPerMinute.ToString(System.Globalization.CultureInfo.InvariantCulture));
        builder.ConfigureServices(services =>
        {
            services.Configure<HostOptions>(o => o.ShutdownTimeout = TimeSpan.FromSeconds(1));
            if (!_realEngine)
            {
                services.RemoveAll<DocumentScreener>();
                services.AddSingleton(SampleScreening.Screener);
            }

            _services?.Invoke(services);
        });
    }
}
