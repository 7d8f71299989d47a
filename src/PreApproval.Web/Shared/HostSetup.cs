using System.Net;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.Server.Kestrel.Core;

namespace PreApproval.Web.Shared;

/// <summary>What the host allows before any code of ours runs.</summary>
public static class HostSetup
{
    /// <summary>Where it listens when nothing says where: on this machine only.</summary>
    public const string DefaultAddress = "http://127.0.0.1:5080";

    private const int MostConnections = 1_000;

    /// <summary>Open editors.</summary>
    private const int MostCircuits = 400;

    private static readonly string[] AddressSettings = ["urls", "http_ports", "https_ports"];

    public static void ConfigureHost(this WebApplicationBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);

        // Not in appsettings.json: an address there would go before the ports that an image or a service sets in its environment.
        if (Array.TrueForAll(AddressSettings, name => string.IsNullOrEmpty(builder.Configuration[name])) && !builder.Configuration.GetSection("Kestrel:Endpoints").Exists())
        {
            builder.WebHost.UseUrls(DefaultAddress);
        }

        builder.WebHost.ConfigureKestrel(o =>
        {
            o.AddServerHeader = false;
            o.Limits.MaxRequestBodySize = RequestBody.LargestBytes;
            o.Limits.RequestHeadersTimeout = TimeSpan.FromSeconds(15);
            o.Limits.MaxConcurrentConnections = MostConnections;
            o.Limits.MaxConcurrentUpgradedConnections = MostCircuits;
            o.Limits.MinRequestBodyDataRate = new MinDataRate(bytesPerSecond: 1_000, gracePeriod: TimeSpan.FromSeconds(5));
        });
        builder.Services.Configure<HostOptions>(o => o.ShutdownTimeout = TimeSpan.FromSeconds(30));
        builder.Services.ConfigureHttpJsonOptions(o => ApiJson.Configure(o.SerializerOptions));
        builder.Services.Configure<RouteHandlerOptions>(o => o.ThrowOnBadRequest = false);

        string[] proxies = builder.Configuration.GetSection("ForwardedHeaders:KnownProxies").Get<string[]>() ?? [];
        if (proxies.Length > 0)
        {
            builder.Services.Configure<ForwardedHeadersOptions>(o =>
            {
                o.ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto;
                o.KnownProxies.Clear();
                o.KnownIPNetworks.Clear();
                foreach (string proxy in proxies)
                {
                    if (proxy.Contains('/', StringComparison.Ordinal))
                    {
                        o.KnownIPNetworks.Add(System.Net.IPNetwork.Parse(proxy));
                    }
                    else
                    {
                        o.KnownProxies.Add(IPAddress.Parse(proxy));
                    }
                }
            });
        }
    }

    /// <summary>HEAD is answered wherever GET is, with the same headers; the server leaves the content out (RFC 9110, 9.3.2).</summary>
    public static IApplicationBuilder UseHead(this IApplicationBuilder app) => app.Use(async (context, next) =>
    {
        if (!HttpMethods.IsHead(context.Request.Method))
        {
            await next(context);
            return;
        }

        Stream wire = context.Response.Body;
        context.Request.Method = HttpMethods.Get;
        context.Response.Body = Stream.Null;
        try
        {
            await next(context);
        }
        finally
        {
            context.Request.Method = HttpMethods.Head;
            context.Response.Body = wire;
        }
    });

    /// <summary>Believes X-Forwarded-* only from the proxies that are named in the settings; none named: from nobody.</summary>
    public static void UseNamedProxies(this WebApplication app)
    {
        ArgumentNullException.ThrowIfNull(app);
        if (app.Configuration.GetSection("ForwardedHeaders:KnownProxies").GetChildren().Any())
        {
            app.UseForwardedHeaders();
        }
    }
}
