using System.Text;

namespace PreApproval.Audit.Tests;

/// <summary>C2SP signed-note and tlog-checkpoint (C2SP/C2SP at commit 5ba5ee83).</summary>
public sealed class NoteTests
{
    /// <summary>The published example of C2SP signed-note.</summary>
    private const string ExampleKey = "example.com/foo+530d903a+AekyeRrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3U2k";

    private const string ExampleNote =
        "This is an example message.\n\n\u2014 example.com/foo Uw2QOkn8srV1yJGh2VYRlL1Tnagv1YEq6TfXppzi2ONncAlTgK7Ztg1ERYNZXsYjOBH3mFXmRKuwHjG1Yu72IneyaQM=\n";

    /// <summary>The published example of C2SP tlog-checkpoint; its key is not published.</summary>
    private const string ExampleCheckpoint =
        "example.com/behind-the-sofa\n20852163\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n\n\u2014 example.com/behind-the-sofa Az3grlgtzPICa5OS8npVmf1Myq/5IZniMp+ZJurmRDeOoRDe4URYN7u5/Zhcyv2q1gGzGku9nTo+zyWE+xeMcTOAYQ8=\n";

    [Fact]
    public void Verifier_PublishedKey_PublishedIdAndRoundTrip()
    {
        NoteVerifier key = Key(ExampleKey);
        Assert.Equal("example.com/foo", key.Name);
        Assert.Equal(0x530d903aU, key.KeyId);
        Assert.Equal(ExampleKey, key.ToString());
    }

    [Fact]
    public void IsSignedBy_PublishedNote_True()
    {
        SignedNote note = Note(ExampleNote);
        Assert.Equal("This is an example message.\n", note.Text);
        Assert.True(note.IsSignedBy(Key(ExampleKey)));
        Assert.Equal(ExampleNote, note.ToString());
    }

    [Theory]
    [InlineData("This is an example message.", "This is an example massage.")]
    [InlineData("message.\n\n", "message.\n\n\n")]
    [InlineData("neyaQM=", "neyaQI=")]
    [InlineData("foo Uw2QOk", "foo Uw2QOl")]
    [InlineData("example.com/foo U", "example.com/fop U")]
    public void IsSignedBy_ChangedNote_False(string was, string becomes) =>
        Assert.False(Note(ExampleNote.Replace(was, becomes, StringComparison.Ordinal)).IsSignedBy(Key(ExampleKey)));

    /// <summary>RFC 8032 section 7.1, test 1: secret key, public key and the signature of the empty message.</summary>
    [Fact]
    public void Signer_SeedOfRfc8032_PublishedPublicKey()
    {
        var signer = new NoteSigner("example.com/test", Convert.FromHexString("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60"));
        Assert.EndsWith("+" + Convert.ToBase64String([0x01, .. Convert.FromHexString("d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a")]), signer.Verifier.ToString(), StringComparison.Ordinal);
        Assert.True(signer.Verifier.Verify(string.Empty, Convert.FromHexString(
            "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b")));
    }

    [Fact]
    public void Sign_ThenParse_SignedByTheKeyAndNoOther()
    {
        var signer = new NoteSigner("example.com/log/1", NoteSigner.NewSeed());
        var other = new NoteSigner("example.com/log/1", NoteSigner.NewSeed());
        SignedNote note = Note(SignedNote.Sign("first\n\nthird, é and 😂\n", signer).ToString());
        Assert.Equal("first\n\nthird, é and 😂\n", note.Text);
        Assert.True(note.IsSignedBy(signer.Verifier));
        Assert.True(note.IsSignedBy(Key(signer.Verifier.ToString())));
        Assert.False(note.IsSignedBy(other.Verifier));
    }

    [Fact]
    public void AndSign_SecondKey_BothVerifyAndUnknownLinesAreIgnored()
    {
        var log = new NoteSigner("example.com/log", NoteSigner.NewSeed());
        var witness = new NoteSigner("example.org/witness", NoteSigner.NewSeed());
        SignedNote note = Note(SignedNote.Sign("text\n", log).AndSign(witness).ToString());
        Assert.Equal(2, note.Signatures.Count);
        Assert.True(note.IsSignedBy(log.Verifier));
        Assert.True(note.IsSignedBy(witness.Verifier));
        Assert.False(note.IsSignedBy(Key(ExampleKey)));
    }

    /// <summary>A good line does not excuse a bad one of the same key.</summary>
    [Fact]
    public void IsSignedBy_GoodAndForgedLineOfOneKey_False()
    {
        string forged = ExampleNote[(ExampleNote.IndexOf("\n\n", StringComparison.Ordinal) + 2)..].Replace("QM=", "QI=", StringComparison.Ordinal);
        Assert.False(Note(ExampleNote + forged).IsSignedBy(Key(ExampleKey)));
    }

    [Theory]
    [InlineData("")]
    [InlineData("example.com/foo+530d903a")]
    [InlineData("+530d903a+AekyeRrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3U2k")]
    [InlineData("example.com/foo+530d903b+AekyeRrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3U2k")]
    [InlineData("example.com/foo+530D903A+AekyeRrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3U2k")]
    [InlineData("example.com/fop+530d903a+AekyeRrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3U2k")]
    [InlineData("example.com/foo+530d903a+AukyeRrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3U2k")]
    [InlineData("example.com/foo+530d903a+AekyeRrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3Q==")]
    [InlineData("example com+530d903a+AekyeRrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3U2k")]
    [InlineData("example.com/foo+530d903a+Aekye Rrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3U2k")]
    public void Verifier_MalformedKey_Refused(string vkey)
    {
        Assert.False(NoteVerifier.TryParse(vkey, out _, out string error));
        Assert.NotEmpty(error);
    }

    /// <summary>A point of small order "verifies" chosen texts for anyone; RFC 8032 section 5.1.3 decodes it all the same.</summary>
    [Fact]
    public void Verifier_KeyOfSmallOrder_Refused()
    {
        byte[] identity = [0x01, .. new byte[31]];
        byte[] id = System.Security.Cryptography.SHA256.HashData([.. "example.com/foo\n"u8, 0x01, .. identity]);
        Assert.False(NoteVerifier.TryParse($"example.com/foo+{Convert.ToHexStringLower(id.AsSpan(0, 4))}+{Convert.ToBase64String([0x01, .. identity])}", out _, out string error));
        Assert.Contains("Ed25519", error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("text\n")]
    [InlineData("text\n\n")]
    [InlineData("text\n\n- example.com/foo Uw2QOg==\n")]
    [InlineData("text\n\n\u2014 example.com/foo Uw2QOkn8\n trailing")]
    [InlineData("text\n\n\u2014 example.com/foo Uw2QOkn8")]
    [InlineData("text\n\n\u2014 example.com/foo Uw2QOg==\n")]
    [InlineData("text\n\n\u2014 example.com/foo  Uw2QOkn8\n")]
    [InlineData("text\n\n\u2014 example.com/foo Uw2QOkn9==\n")]
    [InlineData("text\n\n\u2014 exa+mple Uw2QOkn8\n")]
    [InlineData("te\txt\n\n\u2014 example.com/foo Uw2QOkn8\n")]
    [InlineData("te\rxt\n\n\u2014 example.com/foo Uw2QOkn8\n")]
    public void TryParse_MalformedNote_Refused(string note)
    {
        Assert.False(SignedNote.TryParse(Encoding.UTF8.GetBytes(note), out _, out string error));
        Assert.NotEmpty(error);
    }

    [Fact]
    public void TryParse_InvalidUtf8_Refused() => Assert.False(SignedNote.TryParse([.. "te\u00e9xt\n\n\u2014 a Uw2QOkn8\n".Select(c => (byte)c)], out _, out _));

    /// <summary>C2SP signed-note: at least 16 signatures must be accepted.</summary>
    [Fact]
    public void TryParse_SixteenSignatures_AcceptedAndTooManyRefused()
    {
        const string Line = "\u2014 example.com/foo Uw2QOkn8\n";
        Assert.Equal(16, Note("text\n\n" + string.Concat(Enumerable.Repeat(Line, 16))).Signatures.Count);
        Assert.False(SignedNote.TryParse(Encoding.UTF8.GetBytes("text\n\n" + string.Concat(Enumerable.Repeat(Line, SignedNote.MostSignatures + 1))), out _, out _));
    }

    [Theory]
    [InlineData("no newline")]
    [InlineData("tab\t\n")]
    [InlineData("")]
    public void Sign_TextNoNoteCanCarry_Throws(string text) =>
        Assert.Throws<FormatException>(() => SignedNote.Sign(text, new NoteSigner("a", NoteSigner.NewSeed())));

    [Fact]
    public void Sign_LoneSurrogate_Throws() =>
        Assert.Throws<FormatException>(() => SignedNote.Sign(new string(['\uD800', '\n']), new NoteSigner("a", NoteSigner.NewSeed())));

    [Theory]
    [InlineData("")]
    [InlineData("a b")]
    [InlineData("a+b")]
    [InlineData("a\nb")]
    public void Signer_NameNoKeyCanHave_Throws(string name) => Assert.Throws<ArgumentException>(() => new NoteSigner(name, NoteSigner.NewSeed()));

    [Fact]
    public void Checkpoint_PublishedExample_ReadAndWrittenAlike()
    {
        SignedNote note = Note(ExampleCheckpoint);
        Assert.True(Checkpoint.TryParse(note.Text, out Checkpoint? checkpoint, out string error), error);
        Assert.Equal("example.com/behind-the-sofa", checkpoint.Origin);
        Assert.Equal(20852163, checkpoint.Size);
        Assert.Equal("CsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=", Convert.ToBase64String(checkpoint.RootHash));
        Assert.Equal(note.Text, checkpoint.ToString());
    }

    [Theory]
    [InlineData("")]
    [InlineData("log\n1\n")]
    [InlineData("log\n1\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=")]
    [InlineData("\n1\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n")]
    [InlineData("log\n01\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n")]
    [InlineData("log\n-1\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n")]
    [InlineData("log\n+1\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n")]
    [InlineData("log\n9223372036854775808\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n")]
    [InlineData("log\n0\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n")]
    [InlineData("log\n1\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2J=\n")]
    [InlineData("log\n1\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxqw==\n")]
    [InlineData("log\n1\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\nextension\n")]
    public void Checkpoint_Malformed_Refused(string text)
    {
        Assert.False(Checkpoint.TryParse(text, out _, out string error));
        Assert.NotEmpty(error);
    }

    [Fact]
    public void Checkpoint_SignedByItsLog_OpensForItsKeyOnly()
    {
        var log = new NoteSigner("example.com/log/1", NoteSigner.NewSeed());
        var stranger = new NoteSigner("example.com/log/2", NoteSigner.NewSeed());
        var checkpoint = new Checkpoint("example.com/log/1", 8, Convert.FromHexString(MerkleTreeTests.Roots[8]));
        byte[] note = Encoding.UTF8.GetBytes(checkpoint.Sign(log).ToString());
        Assert.True(Checkpoint.TryOpen(note, log.Verifier, out Checkpoint? opened, out string error), error);
        Assert.Equal(checkpoint, opened);
        Assert.False(Checkpoint.TryOpen(note, stranger.Verifier, out _, out _));
        Assert.False(Checkpoint.TryOpen(Encoding.UTF8.GetBytes(checkpoint.Sign(stranger).ToString()), stranger.Verifier, out _, out string foreign));
        Assert.Contains("example.com/log/1", foreign, StringComparison.Ordinal);
    }

    [Fact]
    public void Checkpoint_EmptyLog_RoundTrips()
    {
        var empty = new Checkpoint("log", 0, CompactRange.Empty.Root());
        Assert.Equal("log\n0\n47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=\n", empty.ToString());
        Assert.True(Checkpoint.TryParse(empty.ToString(), out Checkpoint? read, out _));
        Assert.Equal(empty, read);
    }

    private static NoteVerifier Key(string vkey) => NoteVerifier.TryParse(vkey, out NoteVerifier? key, out string error) ? key : throw new FormatException(error);

    private static SignedNote Note(string note) => SignedNote.TryParse(Encoding.UTF8.GetBytes(note), out SignedNote? read, out string error) ? read : throw new FormatException(error);
}
