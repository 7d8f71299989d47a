using System.Net;

namespace PreApproval.Web.Administration;

/// <summary>The demo's password is printed in its documentation: it must not slip into a real database or onto a network.</summary>
public static class DemoGuard
{
    /// <summary>Why the demo does not start, or null.</summary>
    public static string? WhyNot(IConfiguration configuration)
    {
        ArgumentNullException.ThrowIfNull(configuration);
        if (!string.IsNullOrEmpty(configuration.GetConnectionString("PreApproval")))
        {
            return "--demo fills a private database, but ConnectionStrings__PreApproval names one. To fill that one with invented people whose password is public, add --demo-anyway.";
        }

        string? open = Addresses(configuration).FirstOrDefault(a => !IsLoopback(a));
        return open is null ? null : $"--demo signs anybody in with a public password, and others could reach {open}. Listen on 127.0.0.1, or add --demo-anyway.";
    }

    private static IEnumerable<string> Addresses(IConfiguration configuration)
    {
        string[] urls = (configuration["urls"] ?? "").Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        IEnumerable<string> endpoints = configuration.GetSection("Kestrel:Endpoints").GetChildren().Select(e => e["Url"] ?? "");

        // Ports without an address are opened to everybody; an address given as well goes before them.
        string?[] ports = urls.Length > 0 ? [] : [configuration["http_ports"], configuration["https_ports"]];
        return urls.Concat(endpoints).Concat(ports.OfType<string>().Where(p => p.Length > 0).Select(p => $"port {p} on every address"));
    }

    private static bool IsLoopback(string address) => Uri.TryCreate(address, UriKind.Absolute, out Uri? uri)
        && (string.Equals(uri.Host, "localhost", StringComparison.OrdinalIgnoreCase) || (IPAddress.TryParse(uri.Host.Trim('[', ']'), out IPAddress? ip) && IPAddress.IsLoopback(ip)));
}
