using System.Net;
using System.Net.Http.Json;
using System.Security.Claims;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>The browser's session: what ends it, and what another site can do with it.</summary>
public sealed class SessionTests(TestApp test)
{
    [Fact]
    public async Task Cookie_OfASignedInPerson_IsAccepted()
    {
        using HttpClient client = await BrowserAsync("author", TimeSpan.Zero);
        using HttpResponseMessage answer = await client.GetAsync("/api/v1/members");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    [Fact]
    public async Task Cookie_AfterTwelveHours_Is401EvenWhenUsedAllTheTime()
    {
        using HttpClient young = await BrowserAsync("author", TimeSpan.FromHours(11.9));
        using HttpResponseMessage accepted = await young.GetAsync("/api/v1/members");
        Assert.Equal(HttpStatusCode.OK, accepted.StatusCode);
        using HttpClient old = await BrowserAsync("author", TimeSpan.FromHours(12.1));
        using HttpResponseMessage refused = await old.GetAsync("/api/v1/members");
        await Read.ProblemAsync(refused, HttpStatusCode.Unauthorized);
    }

    [Fact]
    public async Task Cookie_AfterThePasswordChanged_Is401AtOnce()
    {
        await test.AddPersonAsync(test.Group, "changer", [GroupRole.Member], []);
        using HttpClient client = await BrowserAsync("changer", TimeSpan.Zero);
        await using (AsyncServiceScope scope = test.App.Services.CreateAsyncScope())
        {
            var users = scope.ServiceProvider.GetRequiredService<UserManager<Account>>();
            Account account = (await users.FindByNameAsync("changer"))!;
            Assert.True((await users.ChangePasswordAsync(account, TestApp.Password, "another long sentence")).Succeeded);
        }

        using HttpResponseMessage answer = await client.GetAsync("/api/v1/members");
        await Read.ProblemAsync(answer, HttpStatusCode.Unauthorized);
    }

    [Fact]
    public async Task Cookie_OfADeactivatedAccount_Is401AtOnce()
    {
        await test.AddPersonAsync(test.Group, "closed", [GroupRole.Member], []);
        using HttpClient client = await BrowserAsync("closed", TimeSpan.Zero);
        await test.DeactivateAsync("closed");
        using HttpResponseMessage answer = await client.GetAsync("/api/v1/members");
        await Read.ProblemAsync(answer, HttpStatusCode.Unauthorized);
    }

    [Fact]
    public async Task Cookie_CopiedBeforeTheSignOut_IsWorthNothingAfterwards()
    {
        using Browsing author = await Browsing.SignInAsync(test.App, "author");
        using HttpClient copy = test.App.Client();
        copy.DefaultRequestHeaders.Add("Cookie", author.CookieHeader);
        using HttpResponseMessage before = await copy.GetAsync("/api/v1/members");
        Assert.Equal(HttpStatusCode.OK, before.StatusCode);
        using HttpResponseMessage left = await author.SendAsync("/account/sign-out", await author.FormAsync("/account/sign-out", "sign-out"));
        Assert.Equal(HttpStatusCode.Redirect, left.StatusCode);

        using HttpResponseMessage call = await copy.GetAsync("/api/v1/members");
        await Read.ProblemAsync(call, HttpStatusCode.Unauthorized);
        using HttpResponseMessage page = await copy.GetAsync("/review");
        Assert.Equal(HttpStatusCode.Redirect, page.StatusCode);
        Assert.Contains("/account/sign-in", page.Headers.Location!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task SignOut_OfOneBrowser_LeavesTheOtherSignedIn()
    {
        using Browsing one = await Browsing.SignInAsync(test.App, "author");
        using Browsing two = await Browsing.SignInAsync(test.App, "author");
        (await one.SendAsync("/account/sign-out", await one.FormAsync("/account/sign-out", "sign-out"))).Dispose();
        using HttpResponseMessage answer = await two.Client.GetAsync("/api/v1/members");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    [Theory]
    [InlineData("Sec-Fetch-Site", "cross-site")]
    [InlineData("Sec-Fetch-Site", "same-site")]
    [InlineData("Sec-Fetch-Site", "none")]
    [InlineData("Origin", "https://elsewhere.example")]
    [InlineData("Origin", "null")]
    [InlineData(null, null)]
    public async Task UnsafeRequest_WithTheCookieFromElsewhere_Is403AndNothingStored(string? header, string? value)
    {
        string before = await test.RowsAsync();
        using HttpClient client = await BrowserAsync("author", TimeSpan.Zero);
        if (header is not null)
        {
            client.DefaultRequestHeaders.TryAddWithoutValidation(header, value);
        }

        using HttpResponseMessage answer = await client.PostAsJsonAsync("/api/v1/procedures", new JsonObject { ["document"] = Sample.Document("forged") });
        await Read.ProblemAsync(answer, HttpStatusCode.Forbidden);
        Assert.Equal(before, await test.RowsAsync());
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task UnsafeRequest_WithTheCookieFromOurOwnPages_IsAccepted(bool fetchMetadata)
    {
        using HttpClient client = await BrowserAsync("author", TimeSpan.Zero);
        client.DefaultRequestHeaders.TryAddWithoutValidation(fetchMetadata ? "Sec-Fetch-Site" : "Origin", fetchMetadata ? "same-origin" : test.App.Address.GetLeftPart(UriPartial.Authority));
        using HttpResponseMessage answer = await client.PostAsJsonAsync("/api/v1/procedures", new JsonObject { ["document"] = Sample.Document("from a page") });
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
    }

    [Fact]
    public async Task WebSocket_FromAnotherOrigin_Is403()
    {
        using HttpClient client = await BrowserAsync("author", TimeSpan.Zero);
        using var request = new HttpRequestMessage(HttpMethod.Get, "/_blazor");
        request.Headers.TryAddWithoutValidation("Upgrade", "websocket");
        request.Headers.TryAddWithoutValidation("Connection", "Upgrade");
        request.Headers.TryAddWithoutValidation("Origin", "https://elsewhere.example");
        using HttpResponseMessage answer = await client.SendAsync(request);
        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
    }

    /// <summary>A client with the cookie that a sign-in would have set <paramref name="ago"/>, kept alive by use since.</summary>
    private async Task<HttpClient> BrowserAsync(string person, TimeSpan ago)
    {
        await using AsyncServiceScope scope = test.App.Services.CreateAsyncScope();
        var users = scope.ServiceProvider.GetRequiredService<UserManager<Account>>();
        var factory = scope.ServiceProvider.GetRequiredService<IUserClaimsPrincipalFactory<Account>>();
        ClaimsPrincipal principal = await factory.CreateAsync((await users.FindByNameAsync(person))!);
        var identity = (ClaimsIdentity)principal.Identity!;
        Claim at = identity.FindFirst(Web.Identity.AccountClaims.AuthenticatedAt)!;
        Guid account = (await users.FindByNameAsync(person))!.Id;
        identity.AddClaim(new Claim(Web.Identity.AccountClaims.Session, await scope.ServiceProvider.GetRequiredService<Sessions>().BeginAsync(account, CancellationToken.None)));
        identity.RemoveClaim(at);
        identity.AddClaim(new Claim(at.Type, (long.Parse(at.Value, System.Globalization.CultureInfo.InvariantCulture) - (long)ago.TotalSeconds).ToString(System.Globalization.CultureInfo.InvariantCulture)));
        CookieAuthenticationOptions options = scope.ServiceProvider.GetRequiredService<IOptionsMonitor<CookieAuthenticationOptions>>().Get(IdentityConstants.ApplicationScheme);
        DateTimeOffset now = TimeProvider.System.GetUtcNow();
        var ticket = new AuthenticationTicket(principal, new AuthenticationProperties { IssuedUtc = now, ExpiresUtc = now + options.ExpireTimeSpan }, IdentityConstants.ApplicationScheme);
        HttpClient client = test.App.Client();
        client.DefaultRequestHeaders.Add("Cookie", $"{options.Cookie.Name}={options.TicketDataFormat.Protect(ticket)}");
        return client;
    }
}
