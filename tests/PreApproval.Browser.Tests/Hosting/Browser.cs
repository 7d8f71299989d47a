using Microsoft.Playwright;

namespace PreApproval.Browser.Tests.Hosting;

/// <summary>One headless Chromium for the whole run: the one of the system, or the one that PREAPPROVAL_CHROMIUM names.</summary>
public sealed class Browser : IAsyncDisposable
{
    private static readonly string[] Flags =
        ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];

    private readonly SemaphoreSlim _starting = new(1);
    private IPlaywright? _playwright;
    private IBrowser? _browser;

    public async Task<IBrowserContext> NewContextAsync(Uri baseAddress, ColorScheme scheme = ColorScheme.Light, int width = 1280, int height = 900)
    {
        await _starting.WaitAsync(TestContext.Current.CancellationToken);
        try
        {
            // a busy machine is slow, not wrong
            Assertions.SetDefaultExpectTimeout(20_000);
            _playwright ??= await Playwright.CreateAsync();
            _browser ??= await _playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
            {
                ExecutablePath = Environment.GetEnvironmentVariable("PREAPPROVAL_CHROMIUM") ?? "/usr/bin/chromium",
                Headless = true,
                Args = Flags,
            });
        }
        finally
        {
            _starting.Release();
        }

        IBrowserContext context = await _browser.NewContextAsync(new BrowserNewContextOptions
        {
            BaseURL = baseAddress.ToString(),
            ColorScheme = scheme,
            ViewportSize = new ViewportSize { Width = width, Height = height },
            ReducedMotion = ReducedMotion.Reduce,
        });
        context.SetDefaultTimeout(45_000);
        return context;
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.CloseAsync();
        }

        _playwright?.Dispose();
        _starting.Dispose();
    }
}
