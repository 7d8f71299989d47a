using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Identity;
using PreApproval.Procedures.Accounts;
using PreApproval.Web.Accounts;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Identity;

/// <summary>Sign-in by cookie for people and by token for programs. Where the framework's default is weaker than ASVS 5.0.0 level 2, the value is set here.</summary>
public static class IdentitySetup
{
    /// <summary>Where people sign in.</summary>
    public const string SignInPath = "/account/sign-in";

    private const string ChooseScheme = "cookie-or-token";

    /// <summary>PBKDF2 with HMAC-SHA-512, 210 000 rounds (ASVS 5.0.0, appendix C).</summary>
    public static PasswordHasherOptions Hashing { get; } = new() { IterationCount = 210_000 };

    /// <summary>The caller adds the store.</summary>
    public static IdentityBuilder AddSignIn(this IServiceCollection services)
    {
        services.AddHttpContextAccessor();
        services.AddScoped<ActorProvider>();
        services.AddScoped<SessionCheck>();
        services.AddSingleton<PasswordConfirmation>();
        services.Configure<PasswordHasherOptions>(o => o.IterationCount = Hashing.IterationCount);

        AuthenticationBuilder authentication = services.AddAuthentication(ChooseScheme);
        authentication.AddPolicyScheme(ChooseScheme, displayName: null, o => o.ForwardDefaultSelector = SchemeOf);
        authentication.AddScheme<AuthenticationSchemeOptions, BearerTokenHandler>(BearerTokenHandler.SchemeName, displayName: null, configureOptions: null);
        authentication.AddIdentityCookies(o => o.ApplicationCookie!.Configure(ConfigureCookie));
        services.AddAuthorization();
        services.AddAntiforgery(o =>
        {
            o.Cookie.Name = CookieNames.Antiforgery;
            o.Cookie.SameSite = SameSiteMode.Strict;
            o.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
            o.HeaderName = "X-Form-Token";

            // Our content security policy forbids framing everywhere already.
            o.SuppressXFrameOptionsHeader = true;
        });

        return services.AddIdentityCore<Account>(o =>
            {
                o.Password.RequiredLength = PasswordRules.Shortest;
                o.Password.RequiredUniqueChars = 1;
                o.Password.RequireDigit = false;
                o.Password.RequireLowercase = false;
                o.Password.RequireUppercase = false;
                o.Password.RequireNonAlphanumeric = false;
                o.User.RequireUniqueEmail = false;
            })
            .AddPasswordValidator<PasswordRules>()
            .AddClaimsPrincipalFactory<AccountClaimsFactory>()
            .AddSignInManager<AccountSignIn>();
    }

    /// <summary>A header says token, everything else is a browser's cookie; without either a program gets the token's answer.</summary>
    private static string SchemeOf(HttpContext context) =>
        context.Request.Headers.Authorization.Count > 0 || (ApiPaths.IsApi(context.Request.Path) && !CookieNames.HasSignIn(context.Request))
            ? BearerTokenHandler.SchemeName
            : IdentityConstants.ApplicationScheme;

    private static void ConfigureCookie(CookieAuthenticationOptions o)
    {
        o.Cookie.Name = CookieNames.SignIn;
        o.CookieManager = new SchemeCookieManager();
        o.Cookie.HttpOnly = true;
        o.Cookie.IsEssential = true;
        o.Cookie.Path = "/";
        o.Cookie.SameSite = SameSiteMode.Strict;
        o.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        o.ExpireTimeSpan = TimeSpan.FromMinutes(60);
        o.SlidingExpiration = true;
        o.LoginPath = SignInPath;
        o.AccessDeniedPath = "/error/403";
        o.Events.OnValidatePrincipal = SessionCheck.ValidateAsync;
        Func<RedirectContext<CookieAuthenticationOptions>, Task> signIn = o.Events.OnRedirectToLogin;
        Func<RedirectContext<CookieAuthenticationOptions>, Task> denied = o.Events.OnRedirectToAccessDenied;
        o.Events.OnRedirectToLogin = async c =>
        {
            if (ApiPaths.IsApi(c.Request.Path) || !await EndedSession.AskAsync(c.HttpContext))
            {
                await AnswerAsync(c, StatusCodes.Status401Unauthorized, signIn);
            }
        };
        o.Events.OnRedirectToAccessDenied = c => AnswerAsync(c, StatusCodes.Status403Forbidden, denied);
    }

    private static Task AnswerAsync(RedirectContext<CookieAuthenticationOptions> context, int status, Func<RedirectContext<CookieAuthenticationOptions>, Task> redirect)
    {
        if (ApiPaths.IsApi(context.Request.Path))
        {
            return Problems.FromStatus(context.HttpContext, status).ExecuteAsync(context.HttpContext);
        }

        // Relative: the Host header, which anybody can write, must not say where to sign in.
        if (Uri.TryCreate(context.RedirectUri, UriKind.Absolute, out Uri? address))
        {
            context.RedirectUri = address.PathAndQuery;
        }

        return redirect(context);
    }
}
