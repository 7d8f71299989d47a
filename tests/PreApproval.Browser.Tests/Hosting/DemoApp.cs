using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using PreApproval.Browser.Tests.Hosting;
using PreApproval.Testing;
using PreApproval.Web.Administration;
using PreApproval.Web.Screenings;
using PreApproval.Web.Shared;

[assembly: AssemblyFixture(typeof(Browser))]
[assembly: AssemblyFixture(typeof(DemoApp))]

namespace PreApproval.Browser.Tests.Hosting;

/// <summary>The real application with the demo group, on a socket of 127.0.0.1, with a database of its own.</summary>
public sealed class DemoApp : IAsyncDisposable
{
    private readonly PostgresServer _postgres = new();
    private readonly SemaphoreSlim _starting = new(1);
    private Host? _host;

    /// <summary>Where it listens; starts it the first time.</summary>
    public async Task<Uri> AddressAsync()
    {
        await _starting.WaitAsync(TestContext.Current.CancellationToken);
        try
        {
            if (_host is null)
            {
                var host = new Host((await _postgres.CreateDatabaseAsync()).Application);
                host.StartServer();
                await using AsyncServiceScope scope = host.Services.CreateAsyncScope();
                await scope.ServiceProvider.GetRequiredService<DemoSeed>().FillAsync(TestContext.Current.CancellationToken);
                _host = host;
            }

            return _host.ClientOptions.BaseAddress;
        }
        finally
        {
            _starting.Release();
        }
    }

    /// <summary>Holds every place for screenings and curves until it is disposed; only once the application runs.</summary>
    internal Places TakePlaces() => Places.TakeAll(_host!.Services.GetRequiredService<ScreeningLimiter>());

    public async ValueTask DisposeAsync()
    {
        if (_host is not null)
        {
            await _host.DisposeAsync();
        }

        await _postgres.DisposeAsync();
        _starting.Dispose();
    }

    private sealed class Host : WebApplicationFactory<Program>
    {
        private readonly string _connectionString;

        public Host(string connectionString)
        {
            _connectionString = connectionString;
            UseKestrel(0);
        }

        protected override void ConfigureWebHost(IWebHostBuilder builder)
        {
            ArgumentNullException.ThrowIfNull(builder);
            builder.UseEnvironment("Production");
            builder.UseStaticWebAssets();
            builder.UseSetting("ConnectionStrings:PreApproval", _connectionString);
            // All visitors of a run come from one address.
            builder.UseSetting(RateLimits.SignInsPerMinute, "1000");
            builder.UseSetting("Serilog:MinimumLevel:Default", "Warning");

            // An open circuit would hold the shutdown for as long as that lasts.
            builder.ConfigureServices(s => s.Configure<HostOptions>(o => o.ShutdownTimeout = TimeSpan.FromSeconds(1)));
        }
    }
}
