using System.Globalization;
using PreApproval.Audit;
using PreApproval.Procedures.Thresholds;

namespace PreApproval.Procedures.History;

/// <summary>Compares the versions of thresholds, own substances and the inventory with what the events say of them: one event for each version, in their order.</summary>
internal sealed class VersionCheck(Action<long?, string> add)
{
    /// <summary>Subject of the events of thresholds, which are the group's.</summary>
    private const string Group = "group";

    private static readonly string[] Subjects = [Group, "substance", "vessel", "place", "agent"];

    private readonly Dictionary<(string Subject, Guid Id), List<(AuditLeaf Leaf, bool Seen)>> _told = [];

    /// <summary>Takes down what an event says, in the order of the log.</summary>
    public void Event(AuditLeaf leaf)
    {
        // Of the events of a group only this one makes a version.
        if (!Subjects.Contains(leaf.Subject.Type, StringComparer.Ordinal) || !Guid.TryParseExact(leaf.Subject.Id, "D", out Guid id)
            || (leaf.Subject.Type is Group && leaf.Action is not "thresholds.set"))
        {
            return;
        }

        if (!_told.TryGetValue((leaf.Subject.Type, id), out List<(AuditLeaf Leaf, bool Seen)>? events))
        {
            _told[(leaf.Subject.Type, id)] = events = [];
        }

        events.Add((leaf, false));
    }

    public void Version(VersionEvidence stored)
    {
        string name = Name(stored.Subject, stored.SubjectId, stored.Version);
        int place = stored.Version - First(stored.Subject);
        if (!_told.TryGetValue((stored.Subject, stored.SubjectId), out List<(AuditLeaf Leaf, bool Seen)>? events) || place < 0 || place >= events.Count)
        {
            add(null, $"No event tells of {name}.");
            return;
        }

        AuditLeaf leaf = events[place].Leaf;
        events[place] = (leaf, true);
        Must(string.Equals(leaf.PayloadSha256, stored.ContentDigest, StringComparison.Ordinal), leaf.Seq, $"The digest of {name} is not the one in the history.");
        Must(string.Equals(CanonicalJson.Digest(stored.Content), stored.ContentDigest, StringComparison.Ordinal), leaf.Seq, $"What is stored of {name} does not give its digest.");
        Must(string.Equals(leaf.Actor.Id, stored.AuthorId.ToString("D"), StringComparison.Ordinal), leaf.Seq, $"The author of {name} is not the one who made it.");
    }

    /// <summary>What the events tell of and no row shows.</summary>
    public void Finish()
    {
        foreach (((string subject, Guid id), List<(AuditLeaf Leaf, bool Seen)> events) in _told)
        {
            for (int i = 0; i < events.Count; i++)
            {
                Must(events[i].Seen, events[i].Leaf.Seq, $"The history tells of {Name(subject, id, i + First(subject))}, and it is not stored.");
            }
        }
    }

    /// <summary>Version 1 of the thresholds is the program's default, which nobody set.</summary>
    private static int First(string subject) => subject is Group ? PolicyView.DefaultVersion + 1 : 1;

    private static string Name(string subject, Guid id, int version) => subject is Group
        ? string.Create(CultureInfo.InvariantCulture, $"version {version} of the thresholds")
        : string.Create(CultureInfo.InvariantCulture, $"version {version} of the {subject} {id:D}");

    private void Must(bool sound, long sequence, string sentence)
    {
        if (!sound)
        {
            add(sequence, sentence);
        }
    }
}
