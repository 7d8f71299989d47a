using System.Net;
using System.Text.RegularExpressions;

namespace PreApproval.Web.Tests.Hosting;

/// <summary>A person at the pages, without script: cookies are kept, forms are sent as the page has them, redirects are not followed.</summary>
internal sealed partial class Browsing : IDisposable
{
    private readonly CookieContainer _cookies = new();

    private Browsing(Uri address) =>
        Client = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = _cookies }) { BaseAddress = address };

    public HttpClient Client { get; }

    /// <summary>All cookies as one header: what somebody would hold who copied them.</summary>
    public string CookieHeader => _cookies.GetCookieHeader(Client.BaseAddress!);

    public static async Task<Browsing> SignInAsync(WebApp app, string person, string password = TestApp.Password)
    {
        var browsing = new Browsing(app.Address);
        Dictionary<string, string> form = await browsing.FormAsync("/account/sign-in", "sign-in");
        form["user-name"] = person;
        form["password"] = password;
        using HttpResponseMessage answer = await browsing.SendAsync("/account/sign-in", form);
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        return browsing;
    }

    /// <summary>The hidden fields of a form of a page.</summary>
    public async Task<Dictionary<string, string>> FormAsync(string address, string handler)
    {
        using HttpResponseMessage answer = await Client.GetAsync(address);
        string page = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.OK, $"{address}: {(int)answer.StatusCode} {page}");
        return HiddenOf(page, handler);
    }

    /// <summary>The hidden fields of a form of a page that is at hand.</summary>
    public static Dictionary<string, string> HiddenOf(string page, string handler)
    {
        string form = FormElement().Matches(page).Select(m => m.Value).First(f => f.Contains($"value=\"{handler}\"", StringComparison.Ordinal));
        return HiddenInput().Matches(form).Select(m => m.Value)
            .Where(i => i.Contains("type=\"hidden\"", StringComparison.Ordinal))
            .ToDictionary(i => NameOf().Match(i).Groups["value"].Value, i => WebUtility.HtmlDecode(ValueOf().Match(i).Groups["value"].Value), StringComparer.Ordinal);
    }

    public Task<HttpResponseMessage> SendAsync(string address, IReadOnlyDictionary<string, string> form) =>
        Client.PostAsync(address, new FormUrlEncodedContent(form));

    public void Dispose() => Client.Dispose();

    [GeneratedRegex("<form.*?</form>", RegexOptions.Singleline | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex FormElement();

    [GeneratedRegex("<input[^>]*>", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex HiddenInput();

    [GeneratedRegex(" name=\"(?<value>[^\"]*)\"", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex NameOf();

    [GeneratedRegex(" value=\"(?<value>[^\"]*)\"", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex ValueOf();
}
