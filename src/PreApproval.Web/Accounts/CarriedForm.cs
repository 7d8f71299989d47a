using PreApproval.Web.Shared;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Accounts;

/// <summary>
/// A form that arrived after its session had ended: where it was going, and what was typed. It goes to the browser and comes back in hidden fields, so that the server keeps nothing
/// of somebody who is not signed in; passwords, tokens and keys are left behind.
/// </summary>
/// <param name="To">A page of this server.</param>
/// <param name="Fields">As they were sent.</param>
public sealed record CarriedForm(string To, IReadOnlyList<KeyValuePair<string, string>> Fields)
{
    /// <summary>The field that says of a form that it was carried: it is shown with what was typed and not carried out.</summary>
    public const string Mark = "carried-on";

    /// <summary>The field with the address.</summary>
    public const string ToField = "carried-to";

    private const string Prefix = "carried.";

    private static readonly string[] LeftBehind = ["password", "__RequestVerificationToken", "key", Mark];

    /// <summary>The fields as they are named on the way.</summary>
    public IEnumerable<KeyValuePair<string, string>> Named => Fields.Select(static sent => KeyValuePair.Create(Prefix + sent.Key, sent.Value));

    /// <summary>The posted form that a request for a page of ours brings; null where it brings none, or where the browser does not say that one of our pages sent it.</summary>
    public static async Task<CarriedForm?> ReadAsync(HttpRequest request, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(request);
        string to = request.Path + request.QueryString;
        if (!HttpMethods.IsPost(request.Method) || !request.HasFormContentType || !MayGoOn(to) || !CrossSiteGuard.IsFromUs(request))
        {
            return null;
        }

        IFormCollection form = await request.ReadFormAsync(cancellationToken);
        return new CarriedForm(to, [.. Flat(form).Where(static field => !LeftBehind.Contains(field.Key, StringComparer.OrdinalIgnoreCase))]);
    }

    /// <summary>The form that comes back with the sign-in; null where it does not lead to a page of ours.</summary>
    public static CarriedForm? Back(IFormCollection form)
    {
        ArgumentNullException.ThrowIfNull(form);
        string to = form[ToField].ToString();
        return MayGoOn(to)
            ? new CarriedForm(to, [.. Flat(form).Where(static field => field.Key.StartsWith(Prefix, StringComparison.Ordinal)).Select(static field => KeyValuePair.Create(field.Key[Prefix.Length..], field.Value))])
            : null;
    }

    private static bool MayGoOn(string to) =>
        Links.IsLocal(to) && !ApiPaths.IsApi(to.Split('?')[0]) && !to.StartsWith("/account/", StringComparison.OrdinalIgnoreCase);

    private static IEnumerable<KeyValuePair<string, string>> Flat(IFormCollection form) =>
        form.SelectMany(static field => field.Value.Select(value => KeyValuePair.Create(field.Key, value ?? "")));
}
