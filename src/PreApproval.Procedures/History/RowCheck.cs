using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using PreApproval.Audit;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.History;

/// <summary>Compares revisions, slots and decisions with what the events say of them.</summary>
internal sealed class RowCheck(Func<byte[], string?> documentDigest, Action<long?, string> add)
{
    private readonly Dictionary<(Guid Procedure, int Revision), Told> _told = [];

    /// <summary>Takes down what an event says, in the order of the log.</summary>
    public void Event(AuditLeaf leaf)
    {
        if (!string.Equals(leaf.Subject.Type, AuditEntry.ProcedureSubject, StringComparison.Ordinal)
            || leaf.Subject.Revision is not { } revision || !Guid.TryParseExact(leaf.Subject.Id, "D", out Guid procedure))
        {
            return;
        }

        // A refused signature and the beginning of the next draft say nothing about the rows.
        if (leaf.Action is "sign.refused" or "revision.begun")
        {
            return;
        }

        Told told = _told.TryGetValue((procedure, revision), out Told? known) ? known : _told[(procedure, revision)] = new Told(leaf.Seq);
        told.Last = leaf.Seq;
        switch (leaf.Action)
        {
            case "procedure.submitted":
                (told.Author, told.Document, told.RuleSet, told.State) = (leaf.Actor.Id, leaf.PayloadSha256, leaf.Ruleset, leaf.After);
                break;
            case "procedure.cleared":
                (told.Screening, told.State) = (leaf.PayloadSha256, leaf.After);
                break;
            case "review.routed":
                told.Screening = leaf.PayloadSha256;
                told.Assignees.Add(leaf.After ?? string.Empty);
                break;
            default:
                told.State = leaf.After ?? told.State;
                if (leaf.Action.StartsWith("decision.", StringComparison.Ordinal) && leaf.PayloadSha256 is { } bound)
                {
                    told.Decisions[bound] = leaf;
                }

                break;
        }
    }

    public void Revision(RevisionEvidence stored)
    {
        string name = Name(stored.ProcedureId, stored.Number);
        if (!_told.TryGetValue((stored.ProcedureId, stored.Number), out Told? told))
        {
            add(null, $"No event tells of {name}.");
            return;
        }

        told.Seen = true;
        Must(Same(told.Document, stored.DocumentDigest), told.First, $"The digest of the document of {name} is not the submitted one.");
        Must(Same(documentDigest(stored.Document), stored.DocumentDigest), told.First, $"The document of {name} does not give its digest.");
        Must(Same(told.Screening, stored.ScreeningDigest), told.First, $"The digest of the screening of {name} is not the one in the history.");
        Must(Same(CanonicalJson.Digest(stored.Screening), stored.ScreeningDigest), told.First, $"The screening of {name} does not give its digest.");
        Must(Same(told.RuleSet, $"{stored.EngineVersion} {stored.DataDigest} {stored.PolicyDigest}"), told.First, $"Engine, data or policy of {name} are not those in the history.");
        Must(Same(told.Author, stored.AuthorId.ToString("D")), told.First, $"The author of {name} is not the one who submitted it.");
        Must(Same(told.State, stored.State), told.Last, $"The state of {name} is {stored.State}, and its last event left it {told.State}.");
    }

    public void Slot(SlotEvidence stored)
    {
        if (_told.TryGetValue((stored.ProcedureId, stored.Revision), out Told? told))
        {
            Must(told.Assignees.Remove(stored.AssigneeId.ToString("D")), told.First, $"A slot of {Name(stored.ProcedureId, stored.Revision)} was not routed to the person it names.");
        }
    }

    public void Decision(DecisionEvidence stored)
    {
        string name = $"the decision '{stored.Slot}' on {Name(stored.ProcedureId, stored.Revision)}";
        if (!_told.TryGetValue((stored.ProcedureId, stored.Revision), out Told? told) || !told.Decisions.Remove(stored.BoundDigest, out AuditLeaf? leaf))
        {
            add(told?.Last, $"No event tells of {name} as it is stored.");
            return;
        }

        Must(Same(CanonicalJson.Digest(stored.Bound), stored.BoundDigest), leaf.Seq, $"What was signed in {name} does not give its digest.");
        Must(Same(leaf.Authn?.Method, stored.AuthenticationMethod), leaf.Seq, $"How the signer of {name} signed in is not what the history says.");
        Must(Agrees(stored, told), leaf.Seq, $"The columns of {name} do not say what was signed.");
    }

    /// <summary>What the events tell of and no row shows.</summary>
    public void Finish()
    {
        foreach (((Guid procedure, int revision), Told told) in _told)
        {
            string name = Name(procedure, revision);
            Must(told.Seen, told.First, $"The history tells of {name}, and it is not stored.");
            Must(told.Assignees.Count == 0, told.First, $"The history tells of a slot of {name} that is not stored.");
            foreach (AuditLeaf leaf in told.Decisions.Values)
            {
                add(leaf.Seq, $"The history tells of a decision on {name} that is not stored.");
            }
        }
    }

    private static bool Agrees(DecisionEvidence stored, Told told)
    {
        try
        {
            if (JsonNode.Parse(stored.Bound) is not JsonObject bound || bound["signer"] is not JsonObject signer)
            {
                return false;
            }

            return Is(bound, "procedure", stored.ProcedureId.ToString("D"))
                && bound["revision"]?.GetValue<int>() == stored.Revision
                && Is(bound, "slot", stored.Slot)
                && Is(bound, "document", told.Document)
                && Is(bound, "screening", told.Screening)
                && Is(bound, "decision", stored.Decision)
                && Is(bound, "reason", stored.Reason)
                && Is(bound, "meaning", stored.Meaning)
                && Is(bound, "signedAt", stored.SignedAt.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'", CultureInfo.InvariantCulture))
                && Is(signer, "id", stored.SignerId.ToString("D"))
                && Is(signer, "name", stored.SignerName)
                && Is(signer, "role", stored.SignerRole)
                && JsonNode.DeepEquals(bound["answers"], JsonNode.Parse(stored.Answers));
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or FormatException or ArgumentException)
        {
            return false;
        }
    }

    private static bool Is(JsonObject node, string member, string? text) => text is not null && string.Equals(node[member]?.GetValue<string>(), text, StringComparison.Ordinal);

    private static bool Same(string? one, string? other) => one is not null && string.Equals(one, other, StringComparison.Ordinal);

    private static string Name(Guid procedure, int revision) => string.Create(CultureInfo.InvariantCulture, $"revision {revision} of procedure {procedure:D}");

    private void Must(bool sound, long sequence, string sentence)
    {
        if (!sound)
        {
            add(sequence, sentence);
        }
    }

    /// <summary>What the events tell of one revision.</summary>
    private sealed class Told(long first)
    {
        public long First { get; } = first;

        public long Last { get; set; } = first;

        public string? Author { get; set; }

        public string? Document { get; set; }

        public string? Screening { get; set; }

        public string? RuleSet { get; set; }

        public string? State { get; set; }

        public List<string> Assignees { get; } = [];

        /// <summary>By the digest of what was signed.</summary>
        public Dictionary<string, AuditLeaf> Decisions { get; } = new(StringComparer.Ordinal);

        public bool Seen { get; set; }
    }
}
