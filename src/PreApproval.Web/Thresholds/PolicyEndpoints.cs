using Microsoft.AspNetCore.Http.HttpResults;
using PreApproval.Documents;
using PreApproval.Documents.Policies;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Thresholds;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Thresholds;

/// <summary>The thresholds of a group. The lead sets them, everybody of the group reads them.</summary>
public static class PolicyEndpoints
{
    public static void MapPolicy(this RouteGroupBuilder api)
    {
        api.MapGet("/policy", ReadAsync)
            .WithName("read-policy")
            .WithSummary("The thresholds in use, each with default, allowed range and source")
            .Produces<PolicyAnswer>()
            .Refuses(400, 403, 404);
        api.MapPut("/policy", SetAsync)
            .WithName("set-policy")
            .WithSummary("Set the group's thresholds: the next version of its policy")
            .WithDescription("For the group lead. The body is {policy, reason}; 'policy' has every member that GET gives, in the same units. A value outside its range, or one that another makes meaningless, is refused with the path of its member. If-Match must carry the ETag of the version that was changed: without it 428, with an old one 412. What is screened from then on is screened under it; revisions keep theirs.")
            .Takes<PolicyBody>().WithIdempotencyKey()
            .WithMetadata(new TakesIfMatch(Required: true))
            .Produces<PolicyAnswer>()
            .Refuses(400, 403, 404, 412, 413, 415, 422, 428);
        api.MapGet("/policy/versions", VersionsAsync)
            .WithName("read-policy-versions")
            .WithSummary("Every version of the group's policy, newest first, with who set it, when and why")
            .Produces<PolicyVersionsAnswer>()
            .Refuses(400, 403, 404);
    }

    private static async Task<Results<Ok<PolicyAnswer>, ProblemResult>> ReadAsync(
        HttpContext context, ActorProvider actors, PolicyHandler policies, Guid? group, CancellationToken cancellationToken) =>
        await actors.ForAsync(context.User, group, cancellationToken) is { } actor
            ? Answer(context, await policies.ReadAsync(actor, cancellationToken))
            : ApiEndpoints.NoGroup(context, group);

    private static async Task<Results<Ok<PolicyVersionsAnswer>, ProblemResult>> VersionsAsync(
        HttpContext context, ActorProvider actors, PolicyHandler policies, Guid? group, CancellationToken cancellationToken)
    {
        if (await actors.ForAsync(context.User, group, cancellationToken) is not { } actor)
        {
            return ApiEndpoints.NoGroup(context, group);
        }

        Result<IReadOnlyList<PolicyView>, Refusal> versions = await policies.VersionsAsync(actor, cancellationToken);
        return versions.IsOk
            ? TypedResults.Ok(new PolicyVersionsAnswer([.. versions.Value.Select(PolicyVersionAnswer.From)]))
            : Problems.From(context, versions.Error);
    }

    /// <summary>Who may not set them learns that first; then the version counts; then the body.</summary>
    private static async Task<Results<Ok<PolicyAnswer>, ProblemResult>> SetAsync(
        HttpContext context, ActorProvider actors, PolicyHandler policies, Guid? group, CancellationToken cancellationToken)
    {
        if (await actors.ForAsync(context.User, group, cancellationToken) is not { } actor)
        {
            return ApiEndpoints.NoGroup(context, group);
        }

        if (PolicyHandler.WhyNot(actor) is { } forbidden)
        {
            return Problems.From(context, forbidden);
        }

        Result<PolicyView, Refusal> current = await policies.ReadAsync(actor, cancellationToken);
        if (!current.IsOk)
        {
            return Problems.From(context, current.Error);
        }

        if (EntityTags.RequireIfMatch(context, current.Value.Version, "policy", out int version) is { } refused)
        {
            return refused;
        }

        Result<(Policy Policy, string Reason), Refusal> body = await BodyAsync(context.Request, cancellationToken);
        return body.IsOk
            ? Answer(context, await policies.SetAsync(actor, version, body.Value.Policy, body.Value.Reason, cancellationToken))
            : Problems.From(context, body.Error);
    }

    /// <summary>Faults of the reason and of the policy together.</summary>
    private static async Task<Result<(Policy Policy, string Reason), Refusal>> BodyAsync(HttpRequest request, CancellationToken cancellationToken)
    {
        Result<ObjectReader, Refusal> body = await RequestBody.ReadObjectAsync(request, cancellationToken);
        if (!body.IsOk)
        {
            return body.Error;
        }

        ReadOnlyMemory<byte> raw = body.Value.Raw("policy");
        string reason = body.Value.Text("reason", TypedText.Longest);
        Refusal? outer = body.Value.Finish();
        if (raw.IsEmpty)
        {
            return outer!;
        }

        Result<Policy, DocumentRefusal> policy = PolicyReader.Read(raw);
        Refusal? inner = policy.IsOk ? null : DocumentScreener.Refuse(policy.Error) with
        {
            Message = policy.Error.Kind == DocumentRefusalKind.UnknownMember ? "The policy has members that are not known." : "The policy has faults.",
            Faults = [.. policy.Error.Faults.Select(fault => fault with { Path = "/policy" + fault.Path })],
        };
        Refusal[] refusals = [.. new[] { outer, inner }.OfType<Refusal>().OrderBy(refusal => refusal.Kind)];
        return refusals.Length == 0
            ? (policy.Value!, reason)
            : refusals[0] with { Faults = [.. refusals.SelectMany(refusal => refusal.Faults)] };
    }

    private static Results<Ok<PolicyAnswer>, ProblemResult> Answer(HttpContext context, Result<PolicyView, Refusal> result)
    {
        if (!result.IsOk)
        {
            return Problems.From(context, result.Error);
        }

        context.Response.Headers.ETag = EntityTags.Of(result.Value.Version);
        return TypedResults.Ok(PolicyAnswer.From(result.Value));
    }
}
