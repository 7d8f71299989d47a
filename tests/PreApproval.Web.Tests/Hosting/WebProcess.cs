using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace PreApproval.Web.Tests.Hosting;

/// <summary>The application as it is run: a process with arguments and an environment.</summary>
internal sealed class WebProcess : IAsyncDisposable
{
    private readonly Process _process;
    private readonly Task<string> _output;
    private readonly Task<string> _errors;

    private WebProcess(Process process)
    {
        _process = process;
        _output = process.StandardOutput.ReadToEndAsync();
        _errors = process.StandardError.ReadToEndAsync();
    }

    /// <summary>Nothing of this run's own environment decides where it listens.</summary>
    public static WebProcess Start(IReadOnlyDictionary<string, string> environment, params string[] arguments)
    {
        string program = typeof(Program).Assembly.Location;
        var start = new ProcessStartInfo("dotnet", [program, .. arguments])
        {
            WorkingDirectory = Path.GetDirectoryName(program)!,
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (string name in new[] { "ASPNETCORE_URLS", "ASPNETCORE_HTTP_PORTS", "DOTNET_URLS", "HTTP_PORTS", "ASPNETCORE_ENVIRONMENT" })
        {
            start.Environment.Remove(name);
        }

        foreach ((string name, string value) in environment)
        {
            start.Environment[name] = value;
        }

        return new WebProcess(Process.Start(start)!);
    }

    public static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    /// <summary>True once it answers at the address; false when it does not within a minute and a half or ended.</summary>
    public async Task<bool> AnswersAsync(Uri address)
    {
        using var client = new HttpClient { Timeout = TimeSpan.FromSeconds(2) };
        for (int attempt = 0; attempt < 180 && !_process.HasExited; attempt++)
        {
            try
            {
                using HttpResponseMessage answer = await client.GetAsync(address);
                return true;
            }
            catch (Exception e) when (e is HttpRequestException or TaskCanceledException)
            {
                await Task.Delay(500);
            }
        }

        return false;
    }

    /// <summary>Waits for its end: exit code, standard output, standard error.</summary>
    public async Task<(int Code, string Output, string Errors)> EndAsync()
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromMinutes(2));
        await _process.WaitForExitAsync(patience.Token);
        return (_process.ExitCode, await _output, await _errors);
    }

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            _process.Kill(entireProcessTree: true);
            await _process.WaitForExitAsync();
        }

        _process.Dispose();
    }
}
