using System.Globalization;
using System.Text.Json.Nodes;
using PreApproval.Audit;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Decisions;

/// <summary>Makes signed decisions: what was signed is canonical JSON (RFC 8785), bound by its SHA-256.</summary>
public static class Signature
{
    public static DecisionRecord Sign(RevisionRecord revision, SlotRecord slot, Standing signer, Actor actor, DecisionRequest request, DateTimeOffset now)
    {
        GroupRole role = slot.RequiredRole == GroupRole.Lead || !signer.Is(GroupRole.Reviewer) ? GroupRole.Lead : GroupRole.Reviewer;
        string meaning = Meaning(slot.Kind, request.Decision);
        var answers = new JsonArray();
        foreach (FindingAnswer answer in request.Answers)
        {
            answers.Add(new JsonObject { ["finding"] = answer.FindingId, ["answer"] = WireName.Of(answer.Answer), ["text"] = answer.Text });
        }

        byte[] bound = CanonicalJson.Serialize(new JsonObject
        {
            ["v"] = 1,
            ["procedure"] = revision.ProcedureId.ToString("D"),
            ["revision"] = revision.Number,
            ["slot"] = slot.Slot,
            ["document"] = revision.DocumentDigest,
            ["screening"] = revision.ScreeningDigest,
            ["engine"] = revision.EngineVersion,
            ["data"] = revision.DataDigest,
            ["policy"] = revision.PolicyDigest,
            ["decision"] = WireName.Of(request.Decision),
            ["reason"] = request.Reason,
            ["answers"] = answers,
            ["meaning"] = meaning,
            ["signer"] = new JsonObject { ["id"] = signer.AccountId.ToString("D"), ["name"] = signer.Name, ["role"] = WireName.Of(role) },
            ["signedAt"] = now.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'", CultureInfo.InvariantCulture),
        });
        return new DecisionRecord
        {
            ProcedureId = revision.ProcedureId,
            Revision = revision.Number,
            Slot = slot.Slot,
            GroupId = revision.GroupId,
            Decision = request.Decision,
            Reason = request.Reason,
            Answers = request.Answers,
            SignerId = signer.AccountId,
            SignerName = signer.Name,
            SignerRole = WireName.Of(role),
            Meaning = meaning,
            SignedAt = now,
            AuthenticationMethod = actor.AuthenticationMethod,
            AuthenticatedAt = actor.AuthenticatedAt,
            Bound = bound,
            BoundDigest = CanonicalJson.Digest(bound),
        };
    }

    private static string Meaning(SlotKind kind, DecisionKind decision) => (kind, decision) switch
    {
        (SlotKind.Review, DecisionKind.Approve) => "I reviewed this revision with its screening and approve the work under the conditions stated.",
        (SlotKind.Countersign, DecisionKind.Approve) => "I read this revision, its screening and the review, and countersign the approval.",
        (_, DecisionKind.RequestChanges) => "I reviewed this revision with its screening and request changes before the work may start.",
        (_, DecisionKind.Decline) => "I reviewed this revision with its screening and decline the work.",
    };
}
