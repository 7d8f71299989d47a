using PreApproval.Testing;

[assembly: AssemblyFixture(typeof(PostgresServer))]
