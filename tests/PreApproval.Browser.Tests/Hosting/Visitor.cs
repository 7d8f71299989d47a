using System.Globalization;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using PreApproval.Web.Administration;

namespace PreApproval.Browser.Tests.Hosting;

/// <summary>One person at one browser. Everything that the page asks of another server, and every error in its console, is remembered.</summary>
public sealed class Visitor : IAsyncDisposable
{
    private readonly List<string> _foreign = [];
    private readonly List<string> _errors = [];

    private Visitor(IPage page, Uri address)
    {
        Page = page;
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith(address.ToString(), StringComparison.Ordinal) && !request.Url.StartsWith("data:", StringComparison.Ordinal))
            {
                _foreign.Add(request.Url);
            }
        };
        page.Console += (_, message) =>
        {
            // What the browser itself says of an answer with an error status is expected where a test asks for one.
            if (string.Equals(message.Type, "error", StringComparison.Ordinal) && !message.Text.StartsWith("Failed to load resource", StringComparison.Ordinal))
            {
                _errors.Add(message.Text);
            }
        };
        page.PageError += (_, error) => _errors.Add(error);
    }

    public IPage Page { get; }

    public IReadOnlyList<string> ForeignRequests => _foreign;

    public IReadOnlyList<string> ConsoleErrors => _errors;

    public static async Task<Visitor> ArriveAsync(DemoApp app, Browser browser, DemoPerson? person = null, ColorScheme scheme = ColorScheme.Light, int width = 1280)
    {
        ArgumentNullException.ThrowIfNull(app);
        ArgumentNullException.ThrowIfNull(browser);
        Uri address = await app.AddressAsync();
        IBrowserContext context = await browser.NewContextAsync(address, scheme, width);
        var visitor = new Visitor(await context.NewPageAsync(), address);
        if (person is not null)
        {
            await visitor.SignInAsync(person);
        }

        return visitor;
    }

    public async Task SignInAsync(DemoPerson person)
    {
        ArgumentNullException.ThrowIfNull(person);
        await Page.GotoAsync("/account/sign-in");
        await Page.GetByLabel("User name").FillAsync(person.UserName);
        await Page.GetByLabel("Password").FillAsync(DemoGroup.Password);
        await Page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await Assertions.Expect(Page.GetByRole(AriaRole.Heading, new() { Name = "Procedures of the group" })).ToBeVisibleAsync();
    }

    /// <summary>Makes a procedure from an example and opens it in the editor. Gives its identifier.</summary>
    public async Task<Guid> StartFromExampleAsync(string title)
    {
        await Page.GotoAsync("/procedures/new");
        await Page.GetByRole(AriaRole.Button, new() { Name = "Use this example: " + title }).ClickAsync();
        return await EditorOpenedAsync();
    }

    public async Task<Guid> StartEmptyAsync(string title)
    {
        await Page.GotoAsync("/procedures/new");
        await Page.GetByLabel("Title").FillAsync(title);
        await Page.GetByRole(AriaRole.Button, new() { Name = "Start an empty procedure" }).ClickAsync();
        return await EditorOpenedAsync();
    }

    /// <summary>The editor takes input once its connection stands.</summary>
    public async Task<Guid> EditorOpenedAsync()
    {
        await Page.Locator("#editor[data-interactive]").WaitForAsync();
        return Guid.Parse(new Uri(Page.Url).Segments[2].TrimEnd('/'), CultureInfo.InvariantCulture);
    }

    /// <summary>Waits until the server has confirmed everything that was typed.</summary>
    public Task SavedAsync() => Assertions.Expect(Page.Locator("#saved")).ToHaveAttributeAsync("data-state", "saved");

    /// <summary>From the editor: checks, submits and waits for the page of the revision.</summary>
    public async Task SubmitAsync(int revision)
    {
        await Page.GetByRole(AriaRole.Button, new() { Name = "Check answers and submit" }).ClickAsync();
        await Page.GetByRole(AriaRole.Button, new() { Name = "Submit for screening and review" }).ClickAsync();
        await RevisionShownAsync(Page, revision);
    }

    /// <summary>Waits until the page of a revision is there. By its heading: after a redirect the browser now and then keeps its load event to itself.</summary>
    public static async Task RevisionShownAsync(IPage page, int revision)
    {
        await page.WaitForURLAsync($"**/revisions/{revision.ToString(CultureInfo.InvariantCulture)}", new() { WaitUntil = WaitUntilState.Commit });
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToBeVisibleAsync();
    }

    /// <summary>A field of the editor by its place in the document.</summary>
    public ILocator Field(string place) => Page.Locator($"[id=\"{place}\"]");

    /// <summary>No critical and no serious fault of accessibility, nothing asked of other servers, no error in the console, no sideways scrolling.</summary>
    public async Task AssertSoundAsync(string place)
    {
        AxeResult axe = await Page.RunAxe();
        string faults = string.Join("; ", axe.Violations
            .Where(v => v.Impact is "critical" or "serious")
            .Select(v => $"{v.Impact} {v.Id} at {string.Join(", ", v.Nodes.Select(n => n.Target.ToString()))}: {string.Join(" ", v.Nodes.Take(2).Select(n => n.Html))}"));
        Assert.True(faults.Length == 0, $"{place}: {faults}");
        Assert.True(_foreign.Count == 0, $"{place} asks other servers: {string.Join(", ", _foreign)}");
        Assert.True(_errors.Count == 0, $"{place} has errors in the console: {string.Join("; ", _errors)}");
        int beyond = await Page.EvaluateAsync<int>("() => document.documentElement.scrollWidth - document.documentElement.clientWidth");
        Assert.True(beyond <= 0, $"{place} is {beyond} px wider than the window");
    }

    public async ValueTask DisposeAsync() => await Page.Context.CloseAsync();
}
