using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Identity;
using PreApproval.Procedures.Accounts;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Accounts;

/// <summary>
/// A form that is sent when its session has ended is not lost: the answer asks for the sign-in and carries the form, the sign-in gives it back, and the page shows it again with what
/// was typed. It is never carried out on the way: whoever signs in may be somebody else.
/// </summary>
public static class EndedSession
{
    /// <summary>Below the address of the sign-in, so that guessing is slowed down there too.</summary>
    public const string Path = Identity.IdentitySetup.SignInPath + "/again";

    /// <summary>Answers a form with the sign-in that carries it; false where there is no form to carry.</summary>
    public static async Task<bool> AskAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (await CarriedForm.ReadAsync(context.Request, context.RequestAborted) is not { } form)
        {
            return false;
        }

        await Page(builder => Ask(builder, form, userName: "", wrong: false), StatusCodes.Status401Unauthorized).ExecuteAsync(context);
        return true;
    }

    /// <summary>The sign-in of such a page.</summary>
    public static async Task<IResult> SignInAsync(HttpContext context, SignInManager<Account> signIn, IAntiforgery antiforgery)
    {
        ArgumentNullException.ThrowIfNull(signIn);
        ArgumentNullException.ThrowIfNull(antiforgery);
        if (!await antiforgery.IsRequestValidAsync(context))
        {
            return Results.StatusCode(StatusCodes.Status400BadRequest);
        }

        IFormCollection sent = await context.Request.ReadFormAsync(context.RequestAborted);
        if (CarriedForm.Back(sent) is not { } form)
        {
            return Results.StatusCode(StatusCodes.Status400BadRequest);
        }

        string userName = sent["user-name"].ToString().Trim();
        SignInResult result = await signIn.PasswordSignInAsync(userName, sent["password"].ToString(), isPersistent: false, lockoutOnFailure: true);
        return result.Succeeded
            ? Page(builder => GoOn(builder, form), StatusCodes.Status200OK)
            : Page(builder => Ask(builder, form, userName, wrong: true), StatusCodes.Status422UnprocessableEntity);
    }

    private static RazorComponentResult<App> Page(RenderFragment content, int status) =>
        new(new Dictionary<string, object?>(StringComparer.Ordinal) { [nameof(App.Instead)] = content }) { StatusCode = status };

    private static void Ask(Microsoft.AspNetCore.Components.Rendering.RenderTreeBuilder builder, CarriedForm form, string userName, bool wrong)
    {
        builder.OpenComponent<SignInAgain>(0);
        builder.AddComponentParameter(1, nameof(SignInAgain.Form), form);
        builder.AddComponentParameter(2, nameof(SignInAgain.UserName), userName);
        builder.AddComponentParameter(3, nameof(SignInAgain.Wrong), wrong);
        builder.CloseComponent();
    }

    private static void GoOn(Microsoft.AspNetCore.Components.Rendering.RenderTreeBuilder builder, CarriedForm form)
    {
        builder.OpenComponent<SignedInAgain>(0);
        builder.AddComponentParameter(1, nameof(SignedInAgain.Form), form);
        builder.CloseComponent();
    }
}
