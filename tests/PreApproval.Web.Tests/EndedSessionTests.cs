using System.Net;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>A form that is sent after its session has ended: nothing is carried out, and nothing that was typed is lost but the password.</summary>
public sealed class EndedSessionTests(TestApp test)
{
    private const string NewVessel = "/inventory/vessels/new";

    [Fact]
    public async Task VesselForm_SentAfterTheSignOut_ComesBackAfterTheSignInWithoutHavingBeenKept()
    {
        using Browsing author = await Browsing.SignInAsync(test.App, "author");
        Dictionary<string, string> form = await author.FormAsync(NewVessel, "keep");
        form["label"] = "E-01 <kept>";
        form["kind"] = "round-bottom flask";
        form["note"] = "first line\r\nsecond line";
        string asks = await LoseAsync(author, NewVessel, form);
        Assert.Contains("so nothing was carried out", asks, StringComparison.Ordinal);
        Assert.Contains("value=\"E-01 &lt;kept&gt;\"", asks, StringComparison.Ordinal);

        string back = await BackAsync(author, asks, "author", NewVessel);
        Assert.Contains("You had been signed out, so nothing was carried out.", back, StringComparison.Ordinal);
        Assert.Contains("value=\"E-01 &lt;kept&gt;\"", back, StringComparison.Ordinal);
        Assert.Contains("first line\r\nsecond line</textarea>", WebUtility.HtmlDecode(back), StringComparison.Ordinal);
        using HttpResponseMessage list = await author.Client.GetAsync("/inventory");
        Assert.DoesNotContain("E-01", await list.Content.ReadAsStringAsync(), StringComparison.Ordinal);

        // what came back is an ordinary form: sent again it is kept
        Dictionary<string, string> again = Browsing.HiddenOf(back, "keep");
        again["label"] = "E-01";
        again["kind"] = "round-bottom flask";
        using HttpResponseMessage kept = await author.SendAsync(NewVessel, again);
        Assert.Equal(HttpStatusCode.Redirect, kept.StatusCode);
    }

    [Fact]
    public async Task Decision_SentAfterTheSignOut_ComesBackWithItsWordsAndWithoutThePassword()
    {
        string address = await test.SubmittedAsync("a pressure warning whose reviewer is signed out");
        string review = address.Replace("/api/v1", "", StringComparison.Ordinal) + "/review";
        using Browsing reviewer = await Browsing.SignInAsync(test.App, "pressure-reviewer");
        Dictionary<string, string> form = await reviewer.FormAsync(review, "decide");
        form["reason"] = "half of the toluene, please";
        form["answer-0"] = "condition";
        form["text-0"] = "behind a shield";
        form["password"] = TestApp.Password;
        form["decision"] = "request-changes";
        string asks = await LoseAsync(reviewer, review, form);
        Assert.DoesNotContain(TestApp.Password, asks, StringComparison.Ordinal);

        string back = await BackAsync(reviewer, asks, "pressure-reviewer", review);
        Assert.Contains("You had been signed out, so nothing was carried out.", back, StringComparison.Ordinal);
        Assert.Contains("half of the toluene, please</textarea>", back, StringComparison.Ordinal);
        Assert.Contains("behind a shield</textarea>", back, StringComparison.Ordinal);
        Assert.DoesNotContain(TestApp.Password, back, StringComparison.Ordinal);
        using HttpClient client = test.As("author");
        Assert.Contains("\"in-review\"", await client.GetStringAsync(address), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Thresholds_SentAfterTheSignOut_ComeBackWithReasonAndNumber()
    {
        using Browsing lead = await Browsing.SignInAsync(test.App, "lead");
        Dictionary<string, string> form = await lead.FormAsync("/thresholds/edit", "check");
        form["reason"] = "the rule of the institution (invented)";
        form["overshootK"] = "17.25";
        string asks = await LoseAsync(lead, "/thresholds/edit", form);
        string back = await BackAsync(lead, asks, "lead", "/thresholds/edit");
        Assert.Contains("the rule of the institution (invented)</textarea>", back, StringComparison.Ordinal);
        Assert.Contains("value=\"17.25\"", back, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Form_OfAnotherSiteWithoutASession_IsNotCarried()
    {
        using HttpClient client = test.App.Client();
        foreach ((string? header, string value) in new[] { ("Sec-Fetch-Site", "cross-site"), ("Origin", "https://elsewhere.example"), (null, "") })
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, NewVessel) { Content = new FormUrlEncodedContent(new Dictionary<string, string>(StringComparer.Ordinal) { ["label"] = "planted" }) };
            if (header is not null)
            {
                request.Headers.TryAddWithoutValidation(header, value);
            }

            using HttpResponseMessage answer = await client.SendAsync(request);
            Assert.Equal(header is null ? HttpStatusCode.Redirect : HttpStatusCode.Forbidden, answer.StatusCode);
            Assert.DoesNotContain("planted", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("https://elsewhere.example/")]
    [InlineData("//elsewhere.example/")]
    [InlineData("/\\elsewhere.example/")]
    [InlineData("/api/v1/procedures")]
    [InlineData("/account/sign-out")]
    [InlineData("")]
    public async Task SignInAgain_ForAnywhereButAPage_Is400AndSignsNobodyIn(string to)
    {
        using Browsing author = await Browsing.SignInAsync(test.App, "author");
        string asks = await LoseAsync(author, NewVessel, await author.FormAsync(NewVessel, "keep"));
        Dictionary<string, string> form = Browsing.HiddenOf(asks, NewVessel);
        form["carried-to"] = to;
        form["user-name"] = "author";
        form["password"] = TestApp.Password;
        using HttpResponseMessage answer = await author.SendAsync("/account/sign-in/again", form);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        using HttpResponseMessage page = await author.Client.GetAsync(NewVessel);
        Assert.Equal(HttpStatusCode.Redirect, page.StatusCode);
    }

    [Fact]
    public async Task SignInAgain_WithAWrongPassword_KeepsTheForm()
    {
        using Browsing author = await Browsing.SignInAsync(test.App, "author");
        Dictionary<string, string> form = await author.FormAsync(NewVessel, "keep");
        form["label"] = "E-02";
        Dictionary<string, string> again = Browsing.HiddenOf(await LoseAsync(author, NewVessel, form), NewVessel);
        again["user-name"] = "author";
        again["password"] = "not the password at all";
        using HttpResponseMessage wrong = await author.SendAsync("/account/sign-in/again", again);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.StatusCode);
        string page = await wrong.Content.ReadAsStringAsync();
        Assert.Contains("value=\"E-02\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("not the password at all", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task SignInAgain_WithoutTheTokenOfOurPage_Is400()
    {
        using Browsing author = await Browsing.SignInAsync(test.App, "author");
        Dictionary<string, string> again = Browsing.HiddenOf(await LoseAsync(author, NewVessel, await author.FormAsync(NewVessel, "keep")), NewVessel);
        again.Remove("__RequestVerificationToken");
        again["user-name"] = "author";
        again["password"] = TestApp.Password;
        using HttpResponseMessage answer = await author.SendAsync("/account/sign-in/again", again);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
    }

    /// <summary>Signs out as in another tab and sends the form; the page that answers.</summary>
    private static async Task<string> LoseAsync(Browsing person, string address, IReadOnlyDictionary<string, string> form)
    {
        (await person.SendAsync("/account/sign-out", await person.FormAsync("/account/sign-out", "sign-out"))).Dispose();
        person.Client.DefaultRequestHeaders.TryAddWithoutValidation("Sec-Fetch-Site", "same-origin");
        using HttpResponseMessage answer = await person.SendAsync(address, form);
        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
        return await answer.Content.ReadAsStringAsync();
    }

    /// <summary>Signs in again and goes back; the page with the form.</summary>
    private static async Task<string> BackAsync(Browsing person, string asks, string userName, string address)
    {
        Dictionary<string, string> again = Browsing.HiddenOf(asks, address);
        again["user-name"] = userName;
        again["password"] = TestApp.Password;
        using HttpResponseMessage signedIn = await person.SendAsync("/account/sign-in/again", again);
        Assert.Equal(HttpStatusCode.OK, signedIn.StatusCode);
        string page = await signedIn.Content.ReadAsStringAsync();
        using HttpResponseMessage answer = await person.SendAsync(address, Browsing.HiddenOf(page, "yes"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        return await answer.Content.ReadAsStringAsync();
    }
}
